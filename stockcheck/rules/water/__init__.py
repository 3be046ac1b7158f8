"""The water axis: every animal's and plant's bands against the plan's own water, and against one another."""

from stockcheck.rules.water import gaps, suits, tap

__all__ = ["gaps", "suits", "tap"]
