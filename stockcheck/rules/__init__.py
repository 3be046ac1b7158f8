"""The rules, one module an axis; importing this package registers them all."""
