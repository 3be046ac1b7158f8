"""The pages as datasette's own client gets them: what they say, refuse and never write."""

from __future__ import annotations

import asyncio
import json
import re
import tomllib
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from stockcheck.check import check_text
from stockcheck.report.text_catalogue import text
from stockcheck.table.read import Table
from stockcheck.web.plan_form import parts, plan_text
from stockcheck.web.serve import datasette_for
from stockcheck.web.submission import MOST_CHARACTERS


class Client:
    """Datasette's client without the ``await``; it keeps the cookie that forms need."""

    def __init__(self, datasette: Any) -> None:
        self._loop = asyncio.new_event_loop()
        self._client = datasette.client
        self._loop.run_until_complete(datasette.invoke_startup())

    def get(self, path: str) -> Any:
        return self._loop.run_until_complete(self._client.get(path))

    def send(self, path: str, fields: dict[str, str], **extra: Any) -> Any:
        form = self.get("/check")
        token = re.search(r'name="csrftoken" value="([^"]+)"', form.text)
        assert token
        cookies = {"ds_csrftoken": form.cookies["ds_csrftoken"]}
        return self._loop.run_until_complete(
            self._client.post(path, data={"csrftoken": token[1], **fields}, cookies=cookies, **extra)
        )

    def send_without_token(self, path: str, fields: dict[str, str]) -> Any:
        """As another site would make a browser send it: with the cookie, without the token."""
        cookies = {"ds_csrftoken": self.get("/check").cookies["ds_csrftoken"]}
        return self._loop.run_until_complete(self._client.post(path, data=fields, cookies=cookies))


@pytest.fixture(scope="module")
def client(database: Path) -> Client:
    return Client(datasette_for(database))


def test_every_taxon_has_a_page(client: Client, table: Table) -> None:
    """A page for each animal and plant of the table, a sample of them fetched."""
    taxa = [*table.all_species(), *table.all_plants()]
    for taxon in taxa[::9]:
        answer = client.get(f"/species/{taxon.slug}")
        assert answer.status_code == 200
        assert taxon.scientific_name in unescape(answer.text)


@pytest.mark.parametrize("path", ["/species/unicorn", "/nowhere", "/stockcheck/nothing"])
def test_no_such_page(client: Client, path: str, capsys: pytest.CaptureFixture[str]) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert "Traceback" not in answer.text + "".join(capsys.readouterr())


def test_an_error_is_json_where_json_was_asked_for(client: Client) -> None:
    answer = client.get("/stockcheck/nothing.json")
    assert answer.status_code == 404
    assert json.loads(answer.text)["ok"] is False


def test_one_name_leads_to_its_page(client: Client) -> None:
    answer = client.get("/find?q=Lebistes reticulatus")
    assert answer.headers["location"] == "/species/poecilia-reticulata"


@pytest.mark.parametrize("typed", ['"', "*", "NEAR(", "a OR", "'; drop table names; --", "%", "é" * 500])
def test_any_search_is_answered(client: Client, typed: str) -> None:
    from urllib.parse import quote

    assert client.get(f"/find?q={quote(typed)}").status_code in (200, 302)
    assert client.get(f"/stockcheck/species?_name={quote(typed)}").status_code == 200


def test_list_agrees_with_the_command(client: Client, table: Table) -> None:
    """The browser's "suits my water" and ``stockcheck species`` give the same animals."""
    from stockcheck.advice.suits import suiting

    rows = client.get(
        "/stockcheck/species.json?_temperature=20 degC&_GH=18 dGH&_size=max&_shape=array&_fit=Comfort"
    )
    listed = {row["slug"] for row in json.loads(rows.text)}
    water = {"temperature": 20.0, "GH": 18.0}
    asked = [
        suited
        for suited in suiting(table, water)
        if suited.taxon.slug in {s.slug for s in table.all_species()}
    ]
    comfortable = {
        suited.taxon.slug
        for suited in asked
        if all(
            (band := suited.taxon.band(field)) is None
            or (
                (band.comfort_low is None or band.comfort_low <= value)
                and (band.comfort_high is None or value <= band.comfort_high)
            )
            for field, value in water.items()
        )
    }
    assert listed == comfortable and len(listed) > 10


def test_overlap_address_takes_names_and_slugs_alike(client: Client) -> None:
    by_slug = client.get("/overlap?names=poecilia-reticulata,neocaridina-davidi").text
    by_name = client.get("/overlap?names=guppy&names=cherry shrimp").text
    assert re.findall(r"<svg.*?</svg>", by_slug, re.S) == re.findall(r"<svg.*?</svg>", by_name, re.S)


def test_overlap_tells_an_unknown_name_from_one_of_several(client: Client) -> None:
    assert "“cory” fits several taxa" in client.get("/overlap?names=cory").text
    unknown = client.get("/overlap?names=gupy").text
    assert "“gupy” is not in the table. Did you mean" in unknown and "Poecilia reticulata" in unknown


def test_overlap_as_a_file(client: Client) -> None:
    answer = client.get("/overlap.svg?names=guppy,discus")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert "attachment" in answer.headers["content-disposition"]
    assert "var(" not in answer.text and "no common band" in answer.text
    assert client.get("/overlap.svg?names=unicorn").status_code == 404


def test_check_stores_nothing(client: Client, database: Path, data_folder: Path) -> None:
    before = (database.read_bytes(), sorted(database.parent.iterdir()))
    plan = (data_folder / "plans" / "reading-room.toml").read_text(encoding="utf-8")
    answer = client.send("/check", {"plan": plan})
    assert answer.status_code == 200 and "Reading-room tank" in answer.text
    assert (database.read_bytes(), sorted(database.parent.iterdir())) == before


def test_a_form_from_elsewhere_is_refused(client: Client) -> None:
    assert client.send_without_token("/check", {"plan": "name = 'x'"}).status_code == 403


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ("", "check_page.nothing_sent"),
        ("   \n", "check_page.nothing_sent"),
        ("a" * (MOST_CHARACTERS + 1), "check_page.too_large"),
        ("a" * (9 * MOST_CHARACTERS), "check_page.too_large"),
        ("name = 'a\0b'", "check_page.not_text"),
    ],
)
def test_what_is_no_plan_is_refused_calmly(client: Client, sent: str, said: str) -> None:
    answer = client.send("/check", {"plan": sent})
    assert answer.status_code in (200, 400)
    assert text(said, most=f"{MOST_CHARACTERS:,}") in answer.text


def test_a_binary_file_is_refused(client: Client) -> None:
    answer = client.send("/check", {"plan": ""}, files={"file": ("plan.toml", b"\xff\xfe\x00\x81")})
    assert answer.status_code == 400
    assert text("check_page.not_text") in answer.text


@pytest.mark.parametrize("plan", ["x", "[tank", "[[animals]]\nspecies = 3\ncount = 1e99\n", "name = nan\n"])
def test_a_bad_plan_gives_faults(client: Client, plan: str) -> None:
    answer = client.send("/check", {"plan": plan})
    assert answer.status_code == 200
    assert 'class="note faults"' in answer.text


def test_the_tables_cannot_be_written(client: Client, database: Path) -> None:
    before = database.read_bytes()
    for sql in ("delete from species", "drop table species", "pragma writable_schema = 1"):
        assert client.get(f"/stockcheck?sql={sql}").status_code == 400
    assert database.read_bytes() == before


def test_a_long_query_is_cut_short(client: Client) -> None:
    endless = "with recursive n(x) as (select 1 union all select x + 1 from n) select count(*) from n"
    assert client.get(f"/stockcheck?sql={endless}").status_code == 400


def test_form_writes_a_plan_that_reads_back(table: Table) -> None:
    """Whatever is typed arrives in the plan as typed, quotes and line breaks too."""
    typed = 'sixty "cm" \\ \n[tank]'
    fields = {entry.name: typed for part in parts() for entry in part.entries if entry.kind != "flag"}
    fields |= {"name": typed, "animals_2_species": typed, "animals_2_count": "12", "plants_1_species": "moss"}
    plan = tomllib.loads(plan_text(fields, table))
    assert plan["tank"]["length"] == plan["name"] == plan["animals"][0]["species"] == typed.strip()
    assert plan["animals"][0]["count"] == 12
    assert [plant["species"] for plant in plan["plants"]] == ["moss"]


def test_a_form_holds_several_beds_stones_and_media(table: Table) -> None:
    fields = {
        "name": "Alcove",
        "tank_length": "60 cm",
        "tank_width": "30 cm",
        "tank_height": "36 cm",
        "filter_flow": "300 L/hour",
        "animals_1_species": "ember tetra",
        "animals_1_count": "10",
    }
    for n, (bed, stone, medium) in enumerate(
        [("sand", "lava rock", "ceramic rings"), ("planted soil", "granite", "coarse foam")], 1
    ):
        fields |= {f"bed_{n}_kind": bed, f"bed_{n}_front": f"{n} cm", f"bed_{n}_back": f"{n + 2} cm"}
        fields |= {f"stones_{n}_kind": stone, f"stones_{n}_mass": f"{n} kg"}
        fields |= {f"media_{n}_kind": medium, f"media_{n}_volume": f"{n} L"}
    plan = check_text(plan_text(fields, table), table).facts.plan
    assert [(bed.kind, bed.front_cm, bed.back_cm) for bed in plan.tank.substrate] == [
        ("sand", 1, 3),
        ("planted soil", 2, 4),
    ]
    stones = [(stone.kind, stone.mass_kg) for stone in plan.tank.hardscape]
    assert stones == [
        ("lava rock", 1),
        ("granite", 2),
    ]
    assert plan.filter is not None
    assert [(m.kind, m.volume_l) for m in plan.filter.media] == [("ceramic rings", 1), ("coarse foam", 2)]


def test_empty_form_is_an_almost_empty_plan(table: Table) -> None:
    assert tomllib.loads(plan_text({}, table)) == {"name": text("form.unnamed")}


def test_silent_beside_another_database(tmp_path: Path) -> None:
    """In a datasette that serves something else our pages are not there."""
    import sqlite3

    from datasette.app import Datasette

    connection = sqlite3.connect(tmp_path / "other.db")
    connection.execute("create table notes (id integer primary key, slug text)")
    connection.execute("insert into notes values (1, 'guppy')")
    connection.commit()
    connection.close()
    other = Client(Datasette([str(tmp_path / "other.db")]))
    assert other.get("/overlap").status_code == 404
    assert "stockcheck" not in other.get("/").text
    assert "/species/guppy" not in other.get("/other/notes").text


def test_plants_spared_are_those_the_rules_spare(table: Table, data_folder: Path) -> None:
    """A plan of a plant eater and a plant that its page lists has no finding on eaten or dug-up plants."""
    from stockcheck.check import check_text
    from stockcheck.web.spared import plants_with

    frame = (data_folder / "plans" / "reading-room.toml").read_text(encoding="utf-8").split("[[animals]]")[0]
    eaters = [s for s in table.all_species() if s.eats_plants != "no" or s.digs][::6]
    assert len(eaters) > 10
    for species in eaters:
        for plant in plants_with(species, table)[1][::9]:
            named = table.plant(plant.slug).scientific_name
            plan = (
                f'{frame}[[animals]]\nspecies = "{species.scientific_name}"\ncount = 2\n'
                f'[[plants]]\nspecies = "{named}"\ncover = "5 %"\n'
            )
            rules = {finding.rule for finding in check_text(plan, table).findings}
            assert not rules & {"company/plants-eaten", "company/plants-dug-up"}, (species.slug, plant.slug)


def test_a_plant_without_roots_is_dug_up_by_nobody(table: Table) -> None:
    """Common practice, no source: hornwort has no roots; its page and the rule agree on it."""
    from stockcheck.web.spared import animals_at

    assert animals_at(table.plant("ceratophyllum-demersum"), table)[1] == []
    assert animals_at(table.plant("hygrophila-polysperma"), table)[1]


def test_a_fault_of_the_form_is_told_by_its_field(client: Client) -> None:
    sent = {
        "fill": "yes",
        "name": "Alcove",
        "tank_length": "60",
        "tank_width": "30 cm",
        "tank_height": "36 cm",
        "water_pH": "7,2",
        "animals_1_species": "no such fish",
        "animals_1_count": "10",
        "animals_2_species": "guppy",
    }
    page = client.send("/check", sent).text
    assert 'href="#animals_2_species">Animals, row 2</a>' in page, "how many is missing: a fault of the row"
    assert 'href="#tank_length">Tank: Length, outside</a>' in page
    assert 'href="#animals_1_species">Animals, row 1: Name</a>' in page
    assert page.count('aria-invalid="true"') == 3, "a decimal comma is none"
