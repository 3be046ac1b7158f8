"""Plan and table turned into facts: groups with masses, volumes, loads, capacities."""
