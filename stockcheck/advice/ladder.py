"""The ladder of limits: what gives out first as animals or feed are added, and how far away each limit is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import ceil, floor, inf
from typing import TYPE_CHECKING

from stockcheck.facts import waste_model as w
from stockcheck.facts.breath import breath_figures
from stockcheck.facts.chemistry import LEAST_KH
from stockcheck.facts.model import Facts, Group
from stockcheck.facts.plain import plain
from stockcheck.facts.waste import waste_figures
from stockcheck.facts.waste_inputs import setting_and_inputs
from stockcheck.facts.waste_model import nitrogen_flow
from stockcheck.language import say
from stockcheck.physics.alkalinity import DAYS_PER_WEEK
from stockcheck.physics.ammonia import NH3_ACT
from stockcheck.physics.hardness import before_change
from stockcheck.physics.nitrate import NITRATE_LIMIT
from stockcheck.physics.nitrification import NITRITE_ACT
from stockcheck.physics.oxygen import GUIDELINE
from stockcheck.physics.quantity import Constant
from stockcheck.plan.model import Animals
from stockcheck.rules.core import RULES
from stockcheck.rules.wording import count_word, name_of, names_of, sentence

if TYPE_CHECKING:
    from stockcheck.table.read import Table

_PRACTICE = "common practice, no source"
FARTHEST = Constant(1000.0, "1", "numerical: a limit this many times away is none")
BISECTIONS = Constant(50.0, "1", "numerical: halvings of the bracket")
PROBE = Constant(10.0, "1", "numerical: animals added to see how far dawn's oxygen falls; it falls in a line")
OUT_OF_SIGHT = Constant(15.0, "1", f"{_PRACTICE}: beyond so many times the feed of now, numbers mean nothing")
HOLDS = Constant(50.0, "1", "headroom at which a plan just holds")
MOST_ANIMALS = Constant(1024.0, "1", "numerical: no more animals than this are tried")


@dataclass(frozen=True, slots=True)
class Limit:
    """One rung.

    Parameters
    ----------
    name : str
        ``bacteria``, ``flow``, ``filter-oxygen``, ``ammonia``, ``nitrite``, ``oxygen``, ``nitrate``, ``KH``,
        ``maturity`` or ``space``.
    label : str
        As a person reads it.
    feed_g_per_day : float or None
        The feed at which it is reached; ``None`` where it does not hang on feed, or is not known.
    animals : int or None
        How many more of the same kind fit before it is reached; negative where that many are too many
        already.
    text : str
        One sentence.
    source : str
        Of the line that is drawn.
    in_sight : bool
        Whether a keeper could come near it; false beyond ``OUT_OF_SIGHT`` times the feed of now.
    """

    name: str
    label: str
    feed_g_per_day: float | None
    animals: int | None
    text: str
    source: str
    in_sight: bool = True


def ladder(facts: Facts, table: Table, same: Group | None = None) -> list[Limit]:
    """The limits of a plan, the nearest first, those that could not be worked out last.

    All are for adult animals at the middle of every interval, and but for ``maturity`` for a grown-in filter.

    Parameters
    ----------
    same : Group, optional
        Whose animals are counted; the group that eats most when left out.
    """
    prepared = setting_and_inputs(facts, table)
    group = same or _hungriest(facts)
    if prepared is None or group is None:
        return []
    setting, inputs = prepared
    tank = _Tank(facts, table, setting, {name: item.value for name, item in inputs.items()}, group)
    limits = list(tank.limits())
    return sorted(limits, key=lambda limit: inf if limit.animals is None else limit.animals)


def _hungriest(facts: Facts) -> Group | None:
    """The group whose animals weigh most together; fish before others."""
    weighed = [group for group in facts.groups if group.mass_g and group.count]
    fish = [group for group in weighed if group.species.kind == "fish"] or weighed
    return max(fish, key=lambda group: group.count * (group.mass_g or (0, 0, 0))[1], default=None)


class _Tank:
    """One plan with its nitrogen model, asked again and again for more of one kind of animal."""

    def __init__(
        self, facts: Facts, table: Table, setting: w.Setting, values: dict[str, float], group: Group
    ) -> None:
        self.facts, self.table, self.setting, self.values, self.group = facts, table, setting, values, group
        self.now = nitrogen_flow(setting, values)
        self.feed = self.now["feed"]
        one = nitrogen_flow(_one_more(setting, group), values)
        share = one.get("ration", one["feed"]) / max(self.now.get("ration", self.feed), 1e-12) - 1
        self.feed_each = self.feed * share

    def limits(self) -> Iterator[Limit]:
        setting, limit = self.setting, self.setting.tan_limit
        shown = f"{plain(limit)} mg/L TAN"
        yield self._by_feed(
            "bacteria", say("bacteria"), say("ammonia reaches {shown}", shown=shown), "tan", limit, _PRACTICE
        )
        if setting.pH is not None:
            reached = say("un-ionised ammonia reaches {nh3_act} mg N/L", nh3_act=NH3_ACT)
            yield self._by_feed("ammonia", say("un-ionised ammonia"), reached, "nh3", NH3_ACT, NH3_ACT.source)
        reached = say("nitrite reaches {nitrite_act} mg N/L", nitrite_act=NITRITE_ACT)
        yield self._by_feed("nitrite", say("nitrite"), reached, "nitrite", NITRITE_ACT, NITRITE_ACT.source)
        if setting.media:
            yield from self._through_the_filter(shown)
        change = (
            say("before the next change") if setting.change else say("within twelve weeks without a change")
        )
        reached = say(
            "nitrate reaches {nitrate_limit} mg/L {change}", nitrate_limit=plain(NITRATE_LIMIT), change=change
        )
        yield self._by_feed("nitrate", say("nitrate"), reached, "peak", NITRATE_LIMIT, NITRATE_LIMIT.source)
        yield self._hardness()
        yield self._oxygen()
        yield from self._maturity()
        yield self._space()

    def _by_feed(self, name: str, label: str, reached: str, key: str, line: float, source: str) -> Limit:
        return self._at(name, label, reached, self._feed_where(lambda r: r[key] - line), source)

    def _feed_where(self, over: Callable[[dict[str, float]], float]) -> float:
        """The feed, g/day, at which a measure that grows with feed goes over its line; inf where none
        does."""
        if self.feed <= 0:
            return inf
        low, high = 0.0, float(FARTHEST)
        if over(self._fed(high)) < 0:
            return inf
        for _ in range(int(BISECTIONS)):
            middle = (low + high) / 2
            low, high = (middle, high) if over(self._fed(middle)) < 0 else (low, middle)
        return low * self.feed

    def _fed(self, times: float) -> dict[str, float]:
        v = self.values
        more = {w.FEED_GIVEN: v[w.FEED_GIVEN] * times, w.OWN_FEED: v.get(w.OWN_FEED, 1.0) * times}
        return nitrogen_flow(self.setting, {**v, **more})

    def _at(self, name: str, label: str, reached: str, feed: float, source: str) -> Limit:
        """A rung from the feed at which it is reached."""
        if feed == inf or self.feed_each <= 0:
            text = say("{label}: no limit in sight.", label=sentence(label))
            return Limit(name, label, None, None, text, source, in_sight=False)
        return self._rung(name, label, reached, (feed - self.feed) / self.feed_each, feed, source)

    def _rung(self, name: str, label: str, reached: str, animals: float, feed: float, source: str) -> Limit:
        if animals >= 0 and self.feed > 0 and feed / self.feed > OUT_OF_SIGHT:
            text = say(
                "{label}: no limit in sight, at {feed} times the feed of now.",
                label=sentence(label),
                feed=plain(feed / self.feed),
            )
            return Limit(name, label, feed, floor(animals), text, source, in_sight=False)
        if animals >= 0:
            return Limit(name, label, feed, floor(animals), self._ahead(reached, animals, feed), source)
        fewer = ceil(-animals)
        return Limit(name, label, feed, -fewer, self._passed(reached, fewer, feed), source)

    def _ahead(self, reached: str, animals: float, feed: float) -> str:
        more = floor(animals)
        many = (
            say("{more} more {names}", more=count_word(more), names=self._names(more))
            if more
            else say("one more {names}", names=self._names(1))
        )
        eaten = say(", at {feed} g of feed a day", feed=plain(feed)) if feed > 0 else ""
        return say("{reached} with {many}{eaten}.", reached=sentence(reached), many=many, eaten=eaten)

    def _passed(self, reached: str, fewer: int, feed: float) -> str:
        eaten = ""
        if feed > 0 and fewer <= self.group.count:
            eaten = say(
                ", at {feed} g of feed a day instead of {eaten}", feed=plain(feed), eaten=plain(self.feed)
            )
        elif feed > 0:
            eaten = say(
                "; it bears {feed} g of feed a day, and {eaten} are eaten",
                feed=plain(feed),
                eaten=plain(self.feed),
            )
        if fewer == self.group.count:
            return say(
                "{reached} already; only leaving out the {names} mends it{eaten}.",
                reached=sentence(reached),
                names=self._names(fewer),
                eaten=eaten,
            )
        if fewer < self.group.count:
            mend = say(
                "{fewer} fewer {names} mend{plural} it",
                fewer=count_word(fewer),
                names=self._names(fewer),
                plural="s" if fewer == 1 else "",
            )
            return say("{reached} already; {mend}{eaten}.", reached=sentence(reached), mend=mend, eaten=eaten)
        return say(
            "{reached} already, and would even without the {names}{eaten}.",
            reached=sentence(reached),
            names=self._names(2),
            eaten=eaten,
        )

    def _names(self, number: int) -> str:
        return name_of(self.group.species) if number == 1 else names_of(self.group.species)

    def _through_the_filter(self, shown: str) -> Iterator[Limit]:
        """What the flow, and the oxygen in it, could carry were the media without end."""
        r, limit = self.now, self.setting.tan_limit
        rest = r["capacity"] - min(r["media_clearance"] * limit, r["oxygen_cap"])
        for name, label, cap in (
            ("flow", say("flow through the media"), r["flow_cap"]),
            ("filter-oxygen", say("oxygen in the filter's flow"), r["oxygen_cap"]),
        ):
            reached = say("the {label} gives out at {shown}", label=label, shown=shown)
            feed = self.feed * (cap + rest) / r["load"] if r["load"] > 0 else inf
            yield self._at(name, label, reached, feed, "mass balance")

    def _hardness(self) -> Limit:
        label = say("carbonate hardness")
        tap, routine = self.facts.plan.tap.KH_dkh, self.facts.plan.routine
        if tap is None or not self.setting.change:
            text = say("Carbonate hardness: it takes the tap water's KH, and water changes, to tell.")
            return Limit("KH", label, None, None, text, LEAST_KH.source)
        weeks = routine.every_days / DAYS_PER_WEEK

        def over(r: dict[str, float]) -> float:
            return LEAST_KH - before_change(tap, -r["kh_use"] * weeks, routine.water_change)

        if over({**self.now, "kh_use": 0.0}) >= 0:
            text = say(
                "Carbonate hardness: the tap itself has no more than {least_kh} dKH.",
                least_kh=plain(LEAST_KH),
            )
            return Limit("KH", label, None, None, text, LEAST_KH.source)
        reached = say("KH falls to {least_kh} dKH before the next change", least_kh=plain(LEAST_KH))
        return self._at("KH", label, reached, self._feed_where(over), LEAST_KH.source)

    def _oxygen(self) -> Limit:
        """Dawn's oxygen falls in a line with what breathes, so two nights give the third."""
        label = say("oxygen at dawn")
        before = self.facts.figures.get("oxygen_night_mg_per_l")
        after = self._dawn(int(PROBE))
        if before is None or after is None:
            text = say("Oxygen at dawn: state the tank's measures and its temperature to tell.")
            return Limit("oxygen", label, None, None, text, GUIDELINE.source)
        fall = (before.interval.value - after) / PROBE
        if fall <= 0:
            text = say("Oxygen at dawn: gone already; stir the surface first.")
            return Limit("oxygen", label, None, -self.group.count, text, GUIDELINE.source)
        animals = (before.interval.value - GUIDELINE) / fall
        feed = max(0.0, self.feed + animals * self.feed_each)
        reached = say("oxygen at dawn falls to {guideline} mg/L", guideline=plain(GUIDELINE))
        return self._rung("oxygen", label, reached, animals, feed, GUIDELINE.source)

    def _dawn(self, more: int) -> float | None:
        fuller = self._with(more)
        fuller.figures.update(waste_figures(fuller, self.table))
        night = breath_figures(fuller, self.table).get("oxygen_night_mg_per_l")
        return night.interval.value if night else None

    def _with(self, more: int) -> Facts:
        """The same facts with more (or fewer) of the animals; figures other than counts are left to the
        caller."""
        groups = [
            replace(group, entry=_resized(group, more)) if group is self.group else group
            for group in self.facts.groups
        ]
        return replace(self.facts, groups=groups, figures=dict(self.facts.figures))

    def _maturity(self) -> Iterator[Limit]:
        days = self.facts.figures.get("days_to_grow_in")
        share = self.facts.figures.get("grown_in_share")
        if days is None or share is None or days.interval.value <= 0:
            return
        r, limit = self.now, self.setting.tan_limit
        bacteria = (r["media_clearance"] + r["walls_clearance"]) * limit
        able = r["capacity"] - (1 - share.interval.value) * bacteria
        feed = self.feed * able / r["load"] if r["load"] > 0 else inf
        rung = self._at(
            "maturity", say("maturity of the filter"), say("the new filter gives out"), feed, _PRACTICE
        )
        text = say(
            "The filter is grown in after some {days} days; today it bears {feed} g of feed a day.",
            days=plain(days.interval.value),
            feed=plain(feed),
        )
        yield replace(rung, text=text)

    def _space(self) -> Limit:
        """The most animals for which the space rule still holds."""
        label = "space"

        def holds(more: int) -> bool:
            found = list(RULES["room/swimming-space"].check(self._with(more)))
            mine = [item for item in found if self.group.species.slug in item.species]
            return all(item.headroom >= HOLDS for item in mine)

        if not list(RULES["room/swimming-space"].check(self._with(0))) or holds(int(MOST_ANIMALS)):
            return Limit("space", label, None, None, say("Space: no rule counts these animals."), _PRACTICE)
        animals = _last(holds, -self.group.count, int(MOST_ANIMALS))
        feed = max(0.0, self.feed + animals * self.feed_each)
        return self._rung("space", label, say("space runs out"), animals, feed, _PRACTICE)


def _last(holds: Callable[[int], bool], low: int, high: int) -> int:
    """The largest number between two ends for which something holds that stops holding once."""
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def _one_more(setting: w.Setting, group: Group) -> w.Setting:
    feeders = tuple(
        replace(feeder, count=feeder.count + 1) if feeder.where == group.entry.where else feeder
        for feeder in setting.feeders
    )
    return replace(setting, feeders=feeders)


def _resized(group: Group, more: int) -> Animals:
    """The entry with more animals: unsexed ones to an unsexed group, females (then males) to a sexed one."""
    entry = replace(group.entry)
    for name in ("count", "females", "males"):
        number = getattr(entry, name)
        if number:
            setattr(entry, name, max(0, number + more))
            break
    return entry
