"""Names and verbs for findings: plurals of common names, and softer words where nobody measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stockcheck.language import say
from stockcheck.table.model import Species

if TYPE_CHECKING:
    from stockcheck.facts.model import Facts, Group

#: Endings of names that are their own plural (goldfish, koi, discus, badis).
_UNCHANGED = ("fish", "koi", "medaka", "s")
_COUNTS = (
    say("no"),
    say("one"),
    say("two"),
    say("three"),
    say("four"),
    say("five"),
    say("six"),
    say("seven"),
    say("eight"),
    say("nine"),
    say("ten"),
    say("eleven"),
    say("twelve"),
)


def name_of(species: Species) -> str:
    """The common name as it stands inside a sentence."""
    return species.common_name or species.scientific_name


def plural(name: str) -> str:
    """The plural of a common name (``guppy`` -> ``guppies``, ``angelfish`` -> ``angelfish``)."""
    if name.endswith(_UNCHANGED):
        return name
    if name.endswith("cory"):  # short for Corydoras; keepers say corys
        return name + "s"
    if name.endswith("y") and name[-2:-1] not in "aeiou":
        return name[:-1] + "ies"
    if name.endswith(("ch", "sh", "x")):
        return name + "es"
    return name + "s"


def names_of(species: Species) -> str:
    """The common name of several."""
    return plural(name_of(species))


def some(count: int, species: Species, which: str = "") -> str:
    """``8 male guppies``, ``1 female guppy``, ``2 more guppies``; ``which`` is male, female or more."""
    animals = name_of(species) if count == 1 else names_of(species)
    if which == "male":
        return say("{count} male {animals}", count=count, animals=animals)
    if which == "female":
        return say("{count} female {animals}", count=count, animals=animals)
    if which == "more":
        return say("{count} more {animals}", count=count, animals=animals)
    return f"{count} {animals}"


def count_word(count: int) -> str:
    """Small numbers as words (``six``), larger ones in figures."""
    return _COUNTS[count] if count < len(_COUNTS) else str(count)


def sentence(text: str) -> str:
    """``text`` with its first letter raised."""
    return text[:1].upper() + text[1:]


def listed(words: list[str], last: str = "") -> str:
    """``a``, ``a and b``, ``a, b and c``; ``last`` stands in for the "and"."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last or say('and')} {words[-1]}"


def once_grown(facts: Facts) -> str:
    """A sentence to add where a figure is of grown animals and the plan has young ones; else nothing."""
    young = [group for group in facts.groups if _is_young(group)]
    return say(" That is with all animals grown.") if young else ""


def not_stated(facts: Facts, room_low: bool = False) -> str:
    """Of the tank's measures, its temperature and the coldest of the room what the plan does not say."""
    missing = [] if facts.length_cm else [say("the tank's length, width and height")]
    if facts.temperature_c is None:
        missing.append(say("the heater's setpoint, or the room's range"))
    if room_low and facts.plan.room.low_c is None:
        missing.append(say("the coldest that the room gets, [room] low"))
    return listed(missing) if missing else say("how much water there is")


def _is_young(group: Group) -> bool:
    now, adult = group.mass_now_g, group.mass_g
    smaller = now is not None and adult is not None and now.value < adult.value
    return smaller or group.entry.stage == "juvenile"


def seen(species: Species, *traits: str) -> bool:
    """Whether every one of these traits rests on a source (and not on common practice alone)."""
    return all(species.basis.get(trait) == "seen" for trait in traits)


def grade_of(*traits: tuple[Species, str]) -> str:
    """The grade of a finding: ``C`` where each trait behind it rests on a source, else ``D``."""
    return "C" if all(seen(species, trait) for species, trait in traits) else "D"


def softly(grade: str, plain: str, soft: str) -> str:
    """``plain`` where the traits rest on sources, ``soft`` where only common practice speaks."""
    return soft if grade == "D" else plain
