"""The rules as one Markdown page, made from their own docstrings and examples."""

from __future__ import annotations

from inspect import cleandoc

import stockcheck.rules  # noqa: F401  (importing it registers every rule)
from stockcheck.rules.core import AXES, RULES, Rule


def rules_page_markdown() -> str:
    """Every rule under its axis: what it looks for, how it works, its sources and both examples."""
    parts = ["# The rules"]
    for axis in AXES:
        rules = sorted((rule for rule in RULES.values() if rule.axis == axis), key=lambda rule: rule.name)
        if rules:
            parts.append(f"## {axis}")
            parts.extend(rule_markdown(rule) for rule in rules)
    return "\n\n".join(parts) + "\n"


def rule_markdown(rule: Rule) -> str:
    """One rule's page.  Its examples are what they lay over the base plan of ``rules/examples.py``."""
    parts = [f"### {rule.name}", cleandoc(rule.page)]
    if rule.sources:
        parts.append("Sources: " + "; ".join(dict.fromkeys(rule.sources)) + ".")
    parts.append(_example("Trips it", rule.trips))
    parts.append(_example("Does not", rule.clears))
    return "\n\n".join(parts)


def _example(title: str, fragment: str) -> str:
    if not fragment.strip():
        return f"{title}: the base plan as it is."
    return f"{title}:\n\n```toml\n{fragment.strip()}\n```"
