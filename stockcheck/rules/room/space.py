"""Length, width and space: is the tank large enough for the animals when grown?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stockcheck.facts.model import Facts, Group
from stockcheck.language import say
from stockcheck.physics.quantity import Constant
from stockcheck.rules.bands import name_of
from stockcheck.rules.core import NO_STOP, Finding, headroom_between, level_of, rule
from stockcheck.rules.wording import listed, names_of, some
from stockcheck.table.model import Band

_PRACTICE = "common practice, no source"

#: Tank length, cm, by adult length, cm: 28 L^0.54 runs through the median demands of the taxa that have one
#: (35 mm: 56 cm, 95 mm: 96 cm, 30 cm: 176 cm).
DEMAND_AT_1_CM = Constant(28.0, "cm", "fitted to the min_tank_length rows of the table", 20.0, 38.0)
DEMAND_EXPONENT = Constant(0.54, "1", "fitted to the min_tank_length rows of the table", 0.48, 0.60)

#: Shares of the smallest tank that any source accepts: where it still holds, and where it is a cage.
STILL_HOLDS = Constant(0.85, "1", _PRACTICE)
A_CAGE = Constant(0.4, "1", _PRACTICE)
#: Share of the usual demand from which there is space to spare.
TO_SPARE = Constant(1.1, "1", _PRACTICE)

#: Front to back in adult body lengths: cannot turn, just turns, turns at ease.
CANNOT_TURN = Constant(0.5, "body lengths", _PRACTICE)
JUST_TURNS = Constant(1.0, "body lengths", _PRACTICE)
TURNS_AT_EASE = Constant(1.5, "body lengths", _PRACTICE)
#: An eel-like body turns on itself.
EEL_BENDS = Constant(0.5, "1", _PRACTICE)

#: Open water that one fish of a shoal wants, L, by its length, cm: 0.085 L^2.25 (45 mm: 2.5 L, 15 cm: 38 L).
WATER_AT_1_CM = Constant(0.085, "L", _PRACTICE, 0.06, 0.12)
WATER_EXPONENT = Constant(2.25, "1", _PRACTICE, 2.0, 2.5)
#: A bottom fish wants a square of floor of this side.
SQUARE_SIDE = Constant(2.5, "body lengths", _PRACTICE)
#: Shares of the water or the floor that all of them together want: at ease, just holds, packed.
AT_EASE = Constant(0.6, "1", _PRACTICE)
JUST_HOLDS = Constant(1.0, "1", _PRACTICE)
PACKED = Constant(4.0, "1", _PRACTICE)


#: Animals that a tank is measured by; the others walk.
_SWIMMERS = ("fish", "amphibian")


@rule(
    "room/tank-size",
    trips="""
[[animals]]
species = "Astronotus ocellatus"
count = 2
""",
    clears="""
[[animals]]
species = "Trigonostigma heteromorpha"
count = 10
""",
)
def tank_size(facts: Facts) -> Iterator[Finding]:
    """Is the tank as long and as large as each animal needs when grown?

    Mechanism.  A body accelerates, turns and gets out of another's way over a length; a small vessel stunts
    and stresses it.  The tank's inside length is held against the smallest that sources accept and against
    what most ask for; the volume likewise, where they state one.

    Evidence.  The table's min_tank_length and min_tank_volume, each with its sources.  Where no length is
    stated, a power law through the taxa that have one stands in (grade D).

    Limits.  Stated minimum tanks are habits, not measurements, those of large fish often speak of juveniles,
    and volumes assume a group; 15 % less than the least stated still holds, and volume alone is never a stop.
    """
    groups = _once(facts)
    swimmers = [group for group in groups if group.species.kind in _SWIMMERS]
    if facts.length_cm is None and swimmers:
        yield _no_length(swimmers)
    for group in groups:
        measures = list(_size_measures(facts, group))
        if not measures:
            if facts.length_cm is not None:
                yield _no_size(group)
            continue
        headroom, message, band, wanted = min(measures, key=lambda measure: measure[0])
        yield Finding(
            "room/tank-size",
            level_of(headroom),
            message,
            say("A tank for them starts at {wanted}.", wanted=wanted),
            (group.species.slug,),
            grade=band.grade if band else "D",
            sources=band.sources if band else (),
            headroom=headroom,
        )


@rule(
    "room/turning",
    trips="""
[[animals]]
species = "Pterophyllum scalare"
count = 1
[tank]
width = "14 cm"
""",
    clears="""
[[animals]]
species = "Trigonostigma heteromorpha"
count = 10
""",
)
def turning(facts: Facts) -> Iterator[Finding]:
    """Can the grown animal turn round between front and back?

    Mechanism.  A fish that cannot turn without touching glass bends its spine and swims one way only.  The
    inside width is held against adult length: one length just turns, half a length does not.

    Evidence.  Common practice, no source; the adult lengths are the table's.

    Limits.  Eel-like bodies turn on themselves and need half as much; snails, crabs and shrimps walk.
    """
    width = _inside_width_cm(facts)
    if width is None:
        return
    for group in _once(facts):
        length = _length_cm(group)
        if length is None or group.species.kind not in _SWIMMERS:
            continue
        bend = EEL_BENDS if group.species.body_shape == "eel-like" else 1.0
        headroom = headroom_between(width / (length * bend), CANNOT_TURN, JUST_TURNS, TURNS_AT_EASE)
        yield Finding(
            "room/turning",
            level_of(headroom),
            say(
                "A grown {species} is {length:.3g} cm long, the tank {width:.3g} cm from front to back: "
                "it can {hardly} turn.",
                species=name_of(group.species),
                length=length,
                width=width,
                hardly=say("hardly") if headroom < 50 else say("only just"),
            ),
            say(
                "Choose a tank at least {least:.3g} cm deep from front to back, better {better:.3g} "
                "cm, or a smaller animal.",
                least=length * bend * JUST_TURNS,
                better=length * bend * TURNS_AT_EASE,
            ),
            (group.species.slug,),
            headroom=headroom,
        )


@rule(
    "room/swimming-space",
    trips="""
[[animals]]
species = "Puntigrus tetrazona"
count = 40
""",
    clears="""
[[animals]]
species = "Trigonostigma heteromorpha"
count = 10
""",
)
def swimming_space(facts: Facts) -> Iterator[Finding]:
    """Do the shoals and the bottom fish have space for as many as they are?

    Mechanism.  In open water each grown fish of a shoal keeps a distance from the next, and a large one needs
    more than its share of a small one's; on the bottom each keeps a square of floor of two and a half body
    lengths.  The rule sums these and holds them against the net volume and the floor.  Ten small fish ask for
    far less than one large one.

    Evidence.  Common practice, no source; the lengths are the table's, net volume and floor are computed.

    Limits.  It says nothing of waste or oxygen, which have axes of their own; crowding alone is never a stop.
    """
    volume, floor = facts.figures.get("net_volume_l"), facts.floor_cm2
    fish = [group for group in facts.groups if group.species.kind == "fish" and _length_cm(group)]
    bottom = [group for group in fish if group.species.zone and group.species.zone[0] == "bottom"]
    shoals = [group for group in fish if group not in bottom and group.species.social in ("shoal", "group")]
    if shoals and volume is not None:
        wanted = sum(group.count * _open_water_l(group) for group in shoals)
        yield _space(shoals, wanted, volume.interval.value, say("L of water"))
    if bottom and floor:
        wanted = sum(group.count * (SQUARE_SIDE * (_length_cm(group) or 0.0)) ** 2 for group in bottom)
        yield _space(bottom, wanted / 100, floor / 100, say("dm² of floor"))


def _size_measures(facts: Facts, group: Group) -> Iterator[tuple[float, str, Band | None, str]]:
    """Headroom, message, band and demand of length and of volume, where the plan and the table have them."""
    species = group.species
    length, stated = facts.length_cm, species.band("min_tank_length")
    if length is not None:
        least, usual = _demand(stated) if stated else _fitted_demand(group)
        if least is not None and usual is not None:
            basis = "" if stated else say(", going by its size")
            message = say(
                "The tank is {length:.3g} cm long inside; for {species} keepers ask for {from_to} cm{basis}.",
                length=length,
                species=names_of(species),
                from_to=_from_to(least, usual),
                basis=basis,
            )
            yield (
                _against(length, least, usual),
                message,
                stated,
                say("{usual:.0f} cm of length", usual=usual),
            )
    bare, net = facts.figures.get("gross_volume_l"), facts.figures.get("net_volume_l")
    there, volume = bare or net, species.band("min_tank_volume")
    if there is not None and volume is not None:
        least, usual = _demand(volume)
        if least is not None and usual is not None:
            have = there.interval.value
            holds = say("The bare box holds {have:.0f} L", have=have)
            message = say(
                "{holds}; for {species} keepers ask for {from_to} L.",
                holds=holds if bare else say("There are {have:.0f} L of water", have=have),
                species=names_of(species),
                from_to=_from_to(least, usual),
            )
            yield max(NO_STOP, _against(have, least, usual)), message, volume, f"{usual:.0f} L"


def _against(have: float, least: float, usual: float) -> float:
    """Headroom of a tank measure against the least and the usual that sources ask for."""
    return headroom_between(have, A_CAGE * least, STILL_HOLDS * least, TO_SPARE * usual)


def _demand(band: Band) -> tuple[float | None, float | None]:
    usual = band.comfort_low
    least = band.tolerance_low if band.tolerance_low is not None else usual
    return (min(least, usual) if least is not None and usual is not None else None), usual


def _fitted_demand(group: Group) -> tuple[float | None, float | None]:
    """Where no source states a length: a fish's by the power law, others' unknown."""
    length = _length_cm(group)
    if length is None or group.species.kind != "fish":
        return None, None
    usual = DEMAND_AT_1_CM * length**DEMAND_EXPONENT
    return usual * DEMAND_AT_1_CM.low / DEMAND_AT_1_CM, usual


def _no_length(groups: Sequence[Group]) -> Finding:
    return Finding(
        "room/tank-size",
        "unknown",
        say(
            "Whether {species} have room enough depends on the tank's length.",
            species=listed([names_of(group.species) for group in groups]),
        ),
        say("State the tank's length, width and height."),
        tuple(group.species.slug for group in groups),
    )


def _no_size(group: Group) -> Finding:
    if group.species.kind not in _SWIMMERS:
        return Finding("room/tank-size", "clear", "")
    return Finding(
        "room/tank-size",
        "unknown",
        say(
            "Nobody states how large a tank {species} need, nor how long they grow.",
            species=names_of(group.species),
        ),
        say("Ask a keeper of adult ones before you buy."),
        (group.species.slug,),
    )


def _space(groups: Sequence[Group], wanted: float, there: float, unit: str) -> Finding:
    headroom = max(NO_STOP, headroom_between(wanted / there, PACKED, JUST_HOLDS, AT_EASE))
    level = level_of(headroom)
    animals = listed([some(group.count, group.species) for group in groups])
    numbers = {"animals": animals, "wanted": wanted, "unit": unit, "there": there}
    alone = sum(group.count for group in groups) == 1
    if alone:
        message = say(
            "Grown, {animals} wants {wanted:.0f} {unit} to itself; there are {there:.0f}.", **numbers
        )
    else:
        message = say(
            "Grown, {animals} together want {wanted:.0f} {unit} to themselves; there are {there:.0f}.",
            **numbers,
        )
    larger = say("a tank with {wanted:.0f} {unit} leaves room to spare", wanted=wanted / AT_EASE, unit=unit)
    remedy = say("Better: {larger}.", larger=larger) if alone else say("Keep fewer; {larger}.", larger=larger)
    return Finding(
        "room/swimming-space",
        level,
        message,
        remedy,
        tuple(group.species.slug for group in groups),
        headroom=headroom,
    )


def _open_water_l(group: Group) -> float:
    return float(WATER_AT_1_CM * (_length_cm(group) or 0.0) ** WATER_EXPONENT)


def _once(facts: Facts) -> list[Group]:
    """One group a taxon, the one with the longest animals."""
    longest: dict[str, Group] = {}
    for group in facts.groups:
        held = longest.get(group.species.slug)
        if held is None or (_length_cm(group) or 0) > (_length_cm(held) or 0):
            longest[group.species.slug] = group
    return list(longest.values())


def _length_cm(group: Group) -> float | None:
    return group.length_mm.value / 10 if group.length_mm else None


def _inside_width_cm(facts: Facts) -> float | None:
    if facts.length_cm and facts.floor_cm2:
        return facts.floor_cm2 / facts.length_cm
    return None


def _from_to(least: float, usual: float) -> str:
    return (
        f"{usual:.0f}"
        if round(least) == round(usual)
        else say("{least:.0f} to {usual:.0f}", least=least, usual=usual)
    )
