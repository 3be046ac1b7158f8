"""Pure models, one phenomenon a module: floats in, floats out, every constant with its source.

Nothing here reads a file, knows a species or uses pint; units are in the names and docstrings.
"""
