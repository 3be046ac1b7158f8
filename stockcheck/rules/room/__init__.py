"""The room axis: length to swim, width to turn, space for shoals, a lid for jumpers, the law of the place."""

from stockcheck.rules.room import space, surroundings

__all__ = ["space", "surroundings"]
