"""The rules, one module (or package) an axis; importing this package registers them all."""

from stockcheck.rules import breath, chemistry, company, heater, room, vessel, waste, water

__all__ = ["breath", "chemistry", "company", "heater", "room", "vessel", "waste", "water"]
