"""The arithmetic behind figures, step by step, with this plan's own numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from stockcheck.check import Report
from stockcheck.facts.model import Figure

#: Subjects a keeper asks for, each with the figures that answer it, in order of the argument.
SUBJECTS: dict[str, tuple[str, ...]] = {}


class UnknownTopic(ValueError):
    """Raised where neither a subject nor a figure of this plan has that name."""


@dataclass(frozen=True, slots=True)
class Explanation:
    """The figures that answer one question about one plan."""

    topic: str
    plan: str
    figures: list[Figure]

    def document(self) -> dict[str, Any]:
        return {
            "schema": "stockcheck/explanation/1",
            "plan": self.plan,
            "topic": self.topic,
            "figures": [
                {
                    "name": figure.name,
                    "label": figure.label,
                    "unit": figure.unit,
                    **figure.interval._asdict(),
                    "steps": [step._asdict() for step in figure.steps],
                    "moved_most_by": [
                        {"input": item.name, "at_its_low": item.down, "at_its_high": item.up}
                        for item in figure.influences[:3]
                    ],
                }
                for figure in self.figures
            ],
        }


def explanation(report: Report, topic: str) -> Explanation:
    """The figures behind a subject (``waste``), or one figure by its name.

    Raises
    ------
    UnknownTopic
        With the topics that there are.
    """
    figures = report.facts.figures
    if topic in SUBJECTS:
        chosen = [figures[name] for name in SUBJECTS[topic] if name in figures]
        if not chosen:
            raise UnknownTopic(
                f'Nothing on "{topic}" could be computed for this plan; `check` says what is missing.'
            )
    elif topic in figures:
        chosen = [figures[topic]]
    else:
        names = ", ".join([*SUBJECTS, *sorted(figures)])
        raise UnknownTopic(f'There is no figure "{topic}" for this plan. There are: {names}.')
    return Explanation(topic, report.name, chosen)
