"""What went wrong, in words."""

from __future__ import annotations


def reason(error: Exception) -> str:
    """What the system says of a failed call, without the number and the path that the caller names better."""
    return getattr(error, "strerror", None) or str(error)
