"""stockcheck: will this tank's animals live well together?

One plan file (TOML) and an open species table go in; findings, headroom, a setpoint and the
arithmetic behind every figure come out.  Imports run one way:
``cli, web -> advice, report -> check -> rules -> facts -> physics, table, plan -> units``.
"""

__version__ = "0.1.0"
