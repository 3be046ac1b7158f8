"""The waste axis: does the tank keep up with what its animals excrete?"""

from stockcheck.rules.waste import ammonia, gaps, measured, nitrate, removal

__all__ = ["ammonia", "gaps", "measured", "nitrate", "removal"]
