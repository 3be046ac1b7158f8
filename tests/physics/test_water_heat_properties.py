"""Where nature is monotone, so are the models; conversions undo one another."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stockcheck.physics import carbonate, hardness, heat, oxygen, respiration, structure, volume, water
from stockcheck.physics.heat import Vessel
from stockcheck.physics.volume import Box

celsius = st.floats(8, 34)
litres = st.floats(10, 1000)
uptake = st.floats(0, 500)
surface = st.floats(200, 20_000)
velocity = st.floats(0.1, 6)
degrees = st.floats(0.05, 40)
grams = st.floats(0.05, 800)


@given(celsius, st.floats(0.01, 5))
def test_warmer_water_never_holds_more_oxygen(temperature: float, more: float) -> None:
    assert oxygen.saturation(temperature + more) < oxygen.saturation(temperature)


@given(celsius, uptake, surface, st.floats(1, 5_000), velocity, litres, st.floats(0, 24))
def test_more_surface_never_lowers_oxygen(
    temperature: float, used: float, area: float, more: float, moved: float, volume_l: float, hours: float
) -> None:
    saturation = oxygen.saturation(temperature)

    def dawn(area_cm2: float) -> float:
        passed = oxygen.conductance(oxygen.transfer_at(moved, temperature), area_cm2)
        return oxygen.after(saturation, oxygen.steady(saturation, used, passed), hours, passed, volume_l)

    assert dawn(area + more) >= dawn(area) - 1e-9


@given(celsius, uptake, st.floats(0, 200), surface, velocity, litres, st.floats(0, 24))
def test_more_breathing_never_raises_oxygen(
    temperature: float, used: float, more: float, area: float, moved: float, volume_l: float, hours: float
) -> None:
    saturation = oxygen.saturation(temperature)
    passed = oxygen.conductance(oxygen.transfer_at(moved, temperature), area)

    def dawn(total: float) -> float:
        return oxygen.after(saturation, oxygen.steady(saturation, total, passed), hours, passed, volume_l)

    assert dawn(used + more) <= dawn(used) + 1e-9


@given(uptake, surface, velocity, litres, st.floats(0.1, 24))
def test_oxygen_of_a_night_is_neither_made_nor_lost(
    used: float, area: float, moved: float, volume_l: float, hours: float
) -> None:
    """What the water lost is what was used less what came in, by the exact mean of the level."""
    saturation, start = 8.3, 8.0
    passed = oxygen.conductance(moved, area)
    level = oxygen.steady(saturation, used, passed)
    end = level + (start - level) * (oxygen.after(1.0, 0.0, hours, passed, volume_l))
    mean = level + (start - end) * volume_l / passed / hours
    came_in = passed * (saturation - mean) * hours
    lost = (start - end) * volume_l
    assert abs(used * hours - came_in - lost) <= 1e-9 * max(1.0, used * hours, abs(came_in), abs(lost))


@given(grams, st.floats(0.01, 50), celsius)
def test_a_heavier_fish_breathes_more_but_less_for_its_mass(
    mass: float, more: float, temperature: float
) -> None:
    light, heavy = (respiration.fish(grams, temperature) for grams in (mass, mass + more))
    assert light < heavy
    assert heavy / (mass + more) < light / mass


@given(celsius, st.floats(0, 10), grams)
def test_warmth_never_slows_breathing(temperature: float, more: float, mass: float) -> None:
    for rate in (respiration.fish, respiration.shrimp, respiration.snail, respiration.plants):
        assert rate(mass, temperature + more) >= rate(mass, temperature)


vessels = st.builds(
    Vessel,
    length_cm=st.floats(20, 250),
    width_cm=st.floats(15, 90),
    water_height_cm=st.floats(10, 80),
    glass_mm=st.sampled_from([4.0, 6.0, 8.0, 10.0, 12.0]),
    lid=st.booleans(),
)
humidity = st.floats(0.2, 0.9)
room = st.floats(8, 30)


@given(vessels, room, st.floats(0, 15), st.floats(0.1, 5), humidity)
def test_warmer_water_loses_more_heat(
    vessel: Vessel, room_c: float, over: float, more: float, damp: float
) -> None:
    water_c = room_c + over
    assert heat.loss(water_c + more, room_c, vessel, damp) > heat.loss(water_c, room_c, vessel, damp)


@given(vessels, room, st.floats(0.5, 12), humidity)
def test_a_lid_never_costs_heat(vessel: Vessel, room_c: float, over: float, damp: float) -> None:
    lidded, bare = (heat.loss(room_c + over, room_c, vessel._replace(lid=lid), damp) for lid in (True, False))
    assert lidded < bare


@given(vessels, room, st.floats(0, 400), humidity)
def test_the_held_temperature_balances(vessel: Vessel, room_c: float, power: float, damp: float) -> None:
    held = heat.held_temperature(power, room_c, vessel, damp)
    lost = heat.loss(held, room_c, vessel, damp)
    assert abs(lost - power) < 0.02 if held < heat.HOTTEST else lost <= power


@given(st.floats(16, 34), st.floats(16, 34), st.floats(16, 34), st.floats(10, 400))
def test_time_to_an_edge_on_the_way(start: float, edge: float, end: float, capacity: float) -> None:
    surplus = 5.0 * (end - start)
    hours = heat.hours_to_reach(edge, start, end, capacity, surplus)
    if min(start, end) < edge < max(start, end):
        assert 0 < hours < float("inf")
        assert hours < heat.hours_to_reach(edge, start, end, 2 * capacity, surplus)
    else:
        assert hours in (0.0, float("inf"))


@given(st.floats(5, 34), room, st.floats(0, 0.9), st.floats(0.01, 0.1))
def test_drier_air_never_slows_evaporation(water_c: float, air_c: float, damp: float, more: float) -> None:
    assert water.evaporation(water_c, air_c, damp + more) <= water.evaporation(water_c, air_c, damp) + 1e-9


@given(degrees)
def test_hardness_round_trips(value: float) -> None:
    for there, back in (
        (hardness.mmol_from_dgh, hardness.dgh_from_mmol),
        (hardness.meq_from_dkh, hardness.dkh_from_meq),
        (hardness.caco3_from_degrees, hardness.degrees_from_caco3),
    ):
        assert abs(back(there(value)) - value) < 1e-9 * value


@given(degrees, degrees, st.floats(0, 1))
def test_a_mixture_lies_between_and_keeps_its_mass(first: float, second: float, share: float) -> None:
    mixed = hardness.mixed(first, second, share)
    assert min(first, second) - 1e-9 <= mixed <= max(first, second) + 1e-9
    assert abs(mixed * 100 - (first * 100 * (1 - share) + second * 100 * share)) < 1e-9 * 4000


@given(degrees, st.floats(5.5, 8.2), celsius, st.floats(0.05, 1))
def test_carbon_dioxide_falls_with_ph_and_rises_with_kh(
    kh: float, pH: float, temperature: float, more: float
) -> None:
    usual = carbonate.co2_mg_per_l(kh, pH, temperature)
    assert carbonate.co2_mg_per_l(kh, pH + more, temperature) < usual
    assert carbonate.co2_mg_per_l(kh + more, pH, temperature) > usual
    assert abs(carbonate.ph_from_co2(kh, usual, temperature) - pH) < 1e-6


@given(st.floats(30, 200), st.floats(20, 80), st.floats(0, 12), st.floats(0, 15), st.floats(0.1, 5))
def test_more_bed_never_leaves_more_water(
    length: float, width: float, front: float, back: float, more: float
) -> None:
    box = Box(length, width, 50)
    assert volume.bed_litres(box, front + more, back) > volume.bed_litres(box, front, back)
    level = volume.bed_litres(box, front, front, None, width / 3)
    assert abs(level - volume.box_litres(length, width, front)) < 1e-9 * max(1.0, level)


@given(st.floats(40, 200), st.floats(25, 80), st.floats(0.5, 10))
def test_deeper_water_wants_thicker_glass(length: float, height: float, more: float) -> None:
    thin, thick = (structure.pane_thickness_mm(length, depth) for depth in (height, height + more))
    assert thin < thick
    assert abs(structure.pane_safety_factor(thin, length, height) - structure.SAFETY_FACTOR) < 1e-9
