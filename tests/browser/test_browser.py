"""A reader's way through the pages, in a real browser, against the real server and table."""

from __future__ import annotations

import re
from collections.abc import Iterator
from importlib.resources import files
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.browser

DESK, PHONE = {"width": 1200, "height": 900}, {"width": 390, "height": 800}
FIVE = "poecilia-reticulata,trigonostigma-heteromorpha,corydoras-paleatus,neocaridina-davidi,danio-rerio"
PAGES = {
    "front": "/",
    "search": "/find?q=tetra",
    "nothing found": "/find?q=zzzzqqq",
    "animals": "/stockcheck/species",
    "animals that suit": "/stockcheck/species?_temperature=22+degC&_zone=bottom",
    "a wrong unit": "/stockcheck/species?_temperature=22+litres",
    "plants": "/stockcheck/plants",
    "evidence": "/stockcheck/evidence?slug=betta-splendens",
    "an animal": "/species/betta-splendens",
    "a shrimp": "/species/neocaridina-davidi",
    "a plant": "/species/cryptocoryne-wendtii",
    "empty overlap": "/overlap",
    "overlap": f"/overlap?names={FIVE}",
    "overlap, unclear": "/overlap?add=cory",
    "check": "/check",
    "report": "/check?example=mismatch",
    "rules": "/rules",
    "tables": "/stockcheck",
    "a row": "/stockcheck/species/betta-splendens",
    "a question": "/stockcheck?sql=select+slug,+url+from+evidence+limit+5",
    "a bad question": "/stockcheck?sql=selec",
    "no such page": "/species/unicorn",
}


@pytest.fixture
def page(chromium: Any, address: str) -> Iterator[Any]:
    """A page that fails the test on any error in the console and any request to elsewhere."""
    context = chromium.new_context(base_url=address, viewport=DESK)
    page = context.new_page()
    troubles: list[str] = []
    page.on("pageerror", lambda error: troubles.append(str(error)))
    page.on("console", lambda message: troubles.append(message.text) if message.type == "error" else None)
    page.on(
        "request",
        lambda request: (
            None
            if request.url.startswith((address, "data:", f"blob:{address}"))
            else troubles.append(request.url)
        ),
    )
    page.set_default_timeout(10_000)
    yield page
    context.close()
    assert not [trouble for trouble in troubles if "400 (Bad Request)" not in trouble]


def violations(page: Any) -> list[str]:
    """What axe-core finds wrong with the page as it stands."""
    source = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
    page.evaluate(source)
    found = page.evaluate("axe.run().then(result => result.violations)")
    return [
        f"{violation['id']}: {node['html'][:160]} ({node['failureSummary']})"
        for violation in found
        for node in violation["nodes"]
    ]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", PAGES)
def test_accessible(chromium: Any, address: str, name: str, scheme: str) -> None:
    context = chromium.new_context(base_url=address, viewport=DESK, color_scheme=scheme)
    page = context.new_page()
    page.goto(PAGES[name])
    assert violations(page) == []
    context.close()


@pytest.mark.parametrize("name", PAGES)
def test_fits_a_phone(chromium: Any, address: str, name: str) -> None:
    """Nothing sticks out sideways, and axe-core agrees there too."""
    context = chromium.new_context(base_url=address, viewport=PHONE)
    page = context.new_page()
    page.goto(PAGES[name])
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert violations(page) == []
    context.close()


def test_search_finds_by_any_name(page: Any) -> None:
    page.goto("/")
    page.get_by_role("searchbox", name="Look up an animal or a plant").fill("Lebistes reticulatus")
    page.keyboard.press("Enter")
    page.wait_for_url("**/species/poecilia-reticulata")
    assert page.get_by_role("heading", level=1).inner_text().startswith("Poecilia reticulata")


def test_search_offers_what_is_spelled_alike(page: Any) -> None:
    page.goto("/find?q=gupy")
    page.get_by_role("link", name=re.compile("^guppy$", re.I)).first.click()
    page.wait_for_url("**/species/poecilia-reticulata")


def test_keyboard_reaches_content_first(page: Any) -> None:
    page.goto("/rules")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the content"
    page.keyboard.press("Enter")
    assert page.url.endswith("#content")


def test_facet_narrows_the_list(page: Any) -> None:
    page.goto("/stockcheck/species")
    page.locator("#facet-kind").get_by_role("link", name="shrimp", exact=True).click()
    kinds = page.locator("table.list tbody td:nth-child(2)").all_inner_texts()
    assert kinds and set(kinds) == {"shrimp"}


def test_zone_facet_counts_what_it_then_shows(page: Any) -> None:
    page.goto("/stockcheck/species")
    entry = page.locator("#facet-zone li").filter(has_text="on the bottom")
    promised = int(entry.locator("small").inner_text().replace(",", ""))
    entry.get_by_role("link").click()
    assert page.locator(".count").inner_text().startswith(f"{promised} rows where living on the bottom")


def test_water_typed_with_units(page: Any) -> None:
    """72 degF is the same question as its degC; the rows shown all hold it."""
    shown = []
    for typed in ("72.5 degF", "22.5 degC"):
        page.goto("/stockcheck/species")
        page.get_by_label("Temperature").fill(typed)
        page.get_by_role("button", name="Show these").click()
        shown.append(page.locator("table.list tbody th").all_inner_texts())
        for band in page.locator("table.list tbody td.band:nth-child(3) > span").all_inner_texts():
            if found := re.fullmatch(r"([\d.]+)–([\d.]+) °C", band):
                assert float(found[1]) <= 22.5 <= float(found[2])
    assert shown[0] == shown[1] and shown[0]


def test_list_sorts_by_width_of_band(page: Any) -> None:
    page.goto("/stockcheck/species")
    page.locator(".count").get_by_role("link", name="Temperature").click()
    widths = [
        round(float(found[2]) - float(found[1]), 3)
        for band in page.locator("table.list tbody td.band:nth-child(3) > span").all_inner_texts()
        if (found := re.fullmatch(r"([\d.]+)–([\d.]+) °C", band))
    ]
    assert len(widths) > 20
    assert all(a <= b + 0.11 for a, b in pairwise(widths))  # shown to 0.1


def test_species_page_shows_every_source(page: Any) -> None:
    page.goto("/species/poecilia-reticulata")
    drawn = page.locator("svg.band").first.locator("g > title").all_text_contents()
    rows = page.locator("details", has_text="Temperature").first.locator("tbody tr").count()
    assert rows > 3 and len(drawn) == rows
    page.get_by_role("link", name="Add to an overlap").click()
    page.wait_for_url("**/overlap?names=poecilia-reticulata")


def test_overlap_grows_by_typing_and_shrinks_by_a_click(page: Any) -> None:
    page.goto("/overlap")
    for name in ("guppy", "Trigonostigma heteromorpha", "peppered cory", "cherry shrimp", "zebra danio"):
        page.get_by_label("Add by name").fill(name)
        with page.expect_navigation():
            page.keyboard.press("Enter")
    shared = page.url
    assert shared.endswith(f"names={FIVE}")
    sheet = page.locator("svg.overlap-sheet")
    assert sheet.is_visible() and not page.locator("svg.overlap-panel").first.is_visible()
    assert "all of them are comfortable" in sheet.locator("desc").text_content()
    assert "Set the heater to" in page.locator("main").inner_text()
    page.get_by_role("link", name="remove guppy").click()
    assert page.locator(".chosen li").count() == 4
    page.goto(shared)
    assert page.locator(".chosen li").count() == 5


def test_overlap_asks_which_when_a_name_fits_several(page: Any) -> None:
    page.goto("/overlap?names=poecilia-reticulata&add=cory")
    note = page.get_by_role("status").filter(has_text="fits several")
    note.get_by_role("link", name="Corydoras adolfoi").click()
    assert page.locator(".chosen li").count() == 2


def test_overlap_to_keep(page: Any, tmp_path: Path) -> None:
    page.goto(f"/overlap?names={FIVE}")
    for label, start in (("Picture (SVG)", b"<svg"), ("Picture (PNG)", b"\x89PNG")):
        with page.expect_download() as downloading:
            page.get_by_text(label).click()
        kept = tmp_path / downloading.value.suggested_filename
        downloading.value.save_as(kept)
        assert kept.read_bytes().startswith(start)


def test_works_without_javascript(chromium: Any, address: str) -> None:
    context = chromium.new_context(base_url=address, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"/overlap?names={FIVE}")
    assert page.locator("svg.overlap-sheet").is_visible()
    assert not page.get_by_text("Picture (PNG)").is_visible()
    page.goto("/check?example=reading-room")
    assert page.locator("article.report svg").count() > 5
    context.close()


def plan_named(name: str) -> str:
    return (Path(__file__).parents[2] / "data" / "plans" / f"{name}.toml").read_text(encoding="utf-8")


def test_a_plan_pasted(page: Any) -> None:
    page.goto("/check")
    page.get_by_role("textbox", name="Plan, as text").fill(plan_named("reading-room"))
    page.get_by_role("button", name="Check it", exact=True).click()
    assert page.locator("article.report .verdict").inner_text().strip().startswith("It holds")
    for picture in ("tank", "flow", "curve", "headroom", "overlap-sheet"):
        assert page.locator(f"article.report svg.{picture}").first.is_visible()
    with page.expect_download() as downloading:
        page.get_by_role("button", name="Download this plan file").click()
    kept = Path(downloading.value.path()).read_text(encoding="utf-8")
    assert kept.strip() == plan_named("reading-room").strip()
    assert violations(page) == []


def test_a_plan_uploaded(page: Any, tmp_path: Path) -> None:
    (tmp_path / "plan.toml").write_text(plan_named("mismatch"), encoding="utf-8")
    page.goto("/check")
    page.get_by_label("or a plan file").set_input_files(tmp_path / "plan.toml")
    page.get_by_role("button", name="Check it", exact=True).click()
    assert page.locator("article.report .level-stop").is_visible()


def test_a_bad_plan_tells_every_fault(page: Any) -> None:
    page.goto("/check")
    page.get_by_role("textbox", name="Plan, as text").fill('[tank]\nlength = "120 litres"\nwidht = "40 cm"\n')
    page.get_by_role("button", name="Check it", exact=True).click()
    faults = page.get_by_role("alert").inner_text()
    assert "line 2" in faults and "line 3" in faults and "widht" in faults
    assert page.get_by_role("textbox", name="Plan, as text").input_value().startswith("[tank]")
    assert violations(page) == []


def test_a_plan_filled_in(page: Any) -> None:
    page.goto("/check")
    form = page.locator("form.fill")
    for label, typed in (
        ("Name of the tank", "Window sill"),
        ("Length, outside", "60 cm"),
        ("Width, outside", "30 cm"),
        ("Height, outside", "36 cm"),
        ("Power", "50 W"),
        ("Flow", "300 L/hour"),
        ("Name, row 1", "ember tetra"),
        ("Number, row 1", "10"),
        ("Depth at the front, row 1", "2 cm"),
        ("Depth at the front, row 2", "4 cm"),
    ):
        form.get_by_label(label, exact=True).first.fill(typed)
    form.locator("[name=bed_1_kind]").select_option("sand")
    form.locator("[name=bed_2_kind]").select_option("planted soil")
    page.get_by_role("button", name="Write the plan and check it").click()
    assert page.locator("article.report").is_visible()
    assert "Window sill" in page.locator("article.report").inner_text()
    assert 'length = "60 cm"' in page.get_by_role("textbox", name="Plan, as text").input_value()
    assert form.locator("[name=animals_1_species]").input_value() == "ember tetra"
    assert form.locator("[name=bed_2_kind]").input_value() == "planted soil"
    assert violations(page) == []


SCRIPT = "<script>window.hurt = 1</script><img src=x onerror='window.hurt = 1'>"


@pytest.mark.parametrize(
    "where",
    [
        "/find?q={}",
        "/overlap?names={}",
        "/overlap?add={}",
        "/stockcheck/species?_name={}",
        "/stockcheck/species?_temperature={}",
        "/stockcheck/species?_zone={}",
        "/stockcheck/species?kind={}",
        "/check?example={}",
    ],
)
def test_a_script_in_an_address_stays_text(page: Any, where: str) -> None:
    page.goto(where.format(SCRIPT.replace("<", "%3C").replace(">", "%3E").replace(" ", "+")))
    assert page.evaluate("window.hurt") is None
    assert page.locator("main img").count() == 0


def test_a_script_in_a_plan_stays_text(page: Any) -> None:
    written = SCRIPT.replace('"', "'")
    plan = plan_named("reading-room").replace('"Reading-room tank"', f'"{written}"')
    for sent in (plan, plan.replace('"cherry shrimp"', f'"{written}"')):
        page.goto("/check")
        page.get_by_role("textbox", name="Plan, as text").fill(sent)
        page.get_by_role("button", name="Check it", exact=True).click()
        assert page.locator("article.report, .faults").first.is_visible()
        assert "<script>window.hurt" in page.locator("main").inner_text()
        assert page.evaluate("window.hurt") is None


def test_a_report_prints_without_its_forms(page: Any) -> None:
    page.goto("/check?example=reading-room")
    page.emulate_media(media="print")
    assert not page.locator("textarea#plan").is_visible()
    assert page.locator("article.report .verdict").is_visible()
    assert page.pdf().startswith(b"%PDF")
