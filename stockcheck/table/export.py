"""The open table as files that others can use: a Frictionless package and a Darwin Core Archive.

Both are zip files with licence and citation inside; the same table gives the same bytes.
"""

from __future__ import annotations

import csv
import io
import os
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from stockcheck.table.model import PlantSpecies, Species
from stockcheck.table.package import BuildError, read_package
from stockcheck.table.read import Table

LICENCE = """\
The data (every CSV file and the built database) are licensed under the Creative Commons Attribution 4.0
International licence, CC BY 4.0: https://creativecommons.org/licenses/by/4.0/
The program that builds and reads them is licensed under the Apache License 2.0.
"""
#: The first moment that a zip file can state: no clock goes into an export.
_EPOCH = (1980, 1, 1, 0, 0, 0)
_DWC = "http://rs.tdwg.org/dwc/terms/"
_DWC_TEXT = "http://rs.tdwg.org/dwc/text/"
_NAME_CODES = {"plant": "ICN"}
_CORE = ("taxonID", "scientificName", "taxonRank", "taxonomicStatus", "acceptedNameUsageID", "family",
         "kingdom", "nomenclaturalCode", "vernacularName", "taxonRemarks")  # fmt: skip
_MEASUREMENT = ("taxonID", "measurementType", "measurementValue", "measurementUnit", "measurementMethod",
                "measurementDeterminedBy", "measurementRemarks")  # fmt: skip
_VERNACULAR = ("taxonID", "vernacularName")


def citation(package: Mapping[str, Any], data_hash: str) -> str:
    """How to cite this state of the table."""
    state = f"Version {package['version']}, state {data_hash[:12]}"
    return f"stockcheck contributors. {package['title']}. {state}. CC BY 4.0.\n"


def export_package(data: Path, database: Path, target: Path) -> None:
    """Write the Frictionless data package, with the built database's citation, as one zip file.

    Raises
    ------
    BuildError, TableError
        When the open table or the database cannot be read, or the file not written.
    """
    package = read_package(data)
    files = {"datapackage.json": (data / "datapackage.json").read_bytes()}
    for resource in package["resources"]:
        files[resource["path"]] = (data / resource["path"]).read_bytes()
    readme = data / "README.md"
    if readme.is_file():
        files["README.md"] = readme.read_bytes()
    _write_zip(target, files | _notices(package, database))


def export_darwin_core(data: Path, database: Path, target: Path) -> None:
    """Write a Darwin Core Archive: taxa and synonyms as core; bands, traits, evidence, names beside.

    Each band is two measurements, comfort and tolerance, and every figure behind it one more with its source
    and address; an open end is written ``>=`` or ``<=``.

    Raises
    ------
    BuildError, TableError
        When the open table or the database cannot be read, or the file not written.
    """
    package = read_package(data)
    table = Table.open(database)
    try:
        taxa, measurements, names = _core(table), _measurements(table), _vernacular(table)
    finally:
        table.close()
    files = {
        "meta.xml": _meta().encode(),
        "eml.xml": _eml(package).encode(),
        "taxon.csv": _csv(_CORE, taxa),
        "measurementorfact.csv": _csv(_MEASUREMENT, measurements),
        "vernacularname.csv": _csv(_VERNACULAR, names),
    }
    _write_zip(target, files | _notices(package, database))


def export_notices(data: Path, database: Path, folder: Path) -> None:
    """Write licence and citation beside a database, which carries them in its build stamp too."""
    for name, content in _notices(read_package(data), database).items():
        (folder / name).write_bytes(content)


def _notices(package: Mapping[str, Any], database: Path) -> dict[str, bytes]:
    table = Table.open(database)
    try:
        state = table.stamp().data_hash
    finally:
        table.close()
    return {"LICENCE.txt": LICENCE.encode(), "CITATION.txt": citation(package, state).encode()}


def _core(table: Table) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    for taxon in table.taxa():
        slug, rank = taxon["slug"], taxon["taxonRank"]
        kingdom = "Plantae" if taxon["domain"] == "plant" else "Animalia"
        shared = (taxon["family"], kingdom, _NAME_CODES.get(taxon["domain"], "ICZN"))
        own = (taxon["vernacularName"], taxon["taxonRemarks"])
        rows.append((slug, taxon["scientificName"], rank, "accepted", slug, *shared, *own))
        for number, synonym in enumerate(table.names(slug)["synonym"], 1):
            rows.append((f"{slug}#{number}", synonym, rank, "synonym", slug, *shared, "", ""))
    return rows


def _interval(low: float | None, high: float | None) -> str:
    if low is None and high is None:
        return ""
    if low is None:
        return f"<={high:g}"
    return f">={low:g}" if high is None else f"{low:g} to {high:g}"


def _measurements(table: Table) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    taxa: list[Species | PlantSpecies] = [*table.all_species(), *table.all_plants()]
    for taxon in taxa:
        for band in taxon.bands.values():
            method = f"consensus of {band.origins} independent sources, grade {band.grade}"
            for part, low, high in (
                ("comfort", band.comfort_low, band.comfort_high),
                ("tolerance", band.tolerance_low, band.tolerance_high),
            ):
                if value := _interval(low, high):
                    unit = "" if band.unit == "pH" else band.unit
                    by = "|".join(band.sources)
                    rows.append((taxon.slug, f"{band.field} {part}", value, unit, method, by, band.note))
        for trait, basis in taxon.basis.items():
            value = getattr(taxon, trait)
            if value not in (None, "", ()):
                unit = "mm" if trait.endswith("_mm") else ""
                rows.append((taxon.slug, trait, _text(value), unit, basis, "", ""))
        rows.extend(_stated(table, taxon.slug))
    return rows


def _stated(table: Table, slug: str) -> Iterator[tuple[str, ...]]:
    """Every figure as its source states it."""
    for row in table.evidence(slug):
        if value := _interval(row.low, row.high):
            unit = "" if row.unit == "pH" else row.unit
            method = f"stated by one source; counts for {row.use}" if row.use else "stated by one source"
            said = "; ".join(filter(None, (row.as_stated, row.sex, row.url, row.reason)))
            yield slug, f"{row.field} stated", value, unit, method, row.source, said


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return "|".join(value)
    return f"{value:g}" if isinstance(value, float) else str(value)


def _vernacular(table: Table) -> list[tuple[str, ...]]:
    return [
        (taxon["slug"], name) for taxon in table.taxa() for name in table.names(taxon["slug"])["vernacular"]
    ]


def _csv(header: Iterable[str], rows: Iterable[Iterable[str]]) -> bytes:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(rows)
    return text.getvalue().encode()


def _file(tag: str, row_type: str, path: str, terms: tuple[str, ...]) -> str:
    key = "id" if tag == "core" else "coreid"
    fields = "".join(
        f'\n    <field index="{index}" term="{_DWC}{term}"/>'
        for index, term in enumerate(terms)
        if index or tag == "core"
    )
    form = 'encoding="UTF-8" fieldsTerminatedBy="," fieldsEnclosedBy="&quot;" linesTerminatedBy="\\n"'
    return (
        f'\n  <{tag} {form} ignoreHeaderLines="1" rowType="{row_type}">'
        f"\n    <files><location>{path}</location></files>"
        f'\n    <{key} index="0"/>{fields}\n  </{tag}>'
    )


def _meta() -> str:
    gbif = "http://rs.gbif.org/terms/1.0/VernacularName"
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<archive xmlns="{_DWC_TEXT}" metadata="eml.xml">'
        + _file("core", _DWC + "Taxon", "taxon.csv", _CORE)
        + _file("extension", _DWC + "MeasurementOrFact", "measurementorfact.csv", _MEASUREMENT)
        + _file("extension", gbif, "vernacularname.csv", _VERNACULAR)
        + "\n</archive>\n"
    )


def _eml(package: Mapping[str, Any]) -> str:
    licence = package["licenses"][0]
    creator = "<organizationName>stockcheck contributors</organizationName>"
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<eml:eml xmlns:eml="https://eml.ecoinformatics.org/eml-2.2.0"'
        f' packageId={quoteattr(package["name"] + "/" + package["version"])} system="stockcheck">\n'
        f"  <dataset>\n    <title>{escape(package['title'])}</title>\n    <creator>{creator}</creator>\n"
        "    <language>en</language>\n"
        f"    <abstract><para>{escape(package['description'])}</para></abstract>\n"
        f"    <intellectualRights><para>{escape(licence['title'])}: {escape(licence['path'])}</para>"
        f"</intellectualRights>\n    <contact>{creator}</contact>\n  </dataset>\n</eml:eml>\n"
    )


def _write_zip(target: Path, files: Mapping[str, bytes]) -> None:
    """Whole or not at all, like the database."""
    draft = target.with_name(f".{target.name}.{os.getpid()}.new")
    try:
        with zipfile.ZipFile(draft, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, content in sorted(files.items()):
                entry = zipfile.ZipInfo(name, _EPOCH)
                entry.compress_type = zipfile.ZIP_DEFLATED
                entry.external_attr = 0o644 << 16
                archive.writestr(entry, content)
        os.replace(draft, target)
    except OSError as error:
        raise BuildError(f"{target} cannot be written: {error.strerror}") from error
    finally:
        draft.unlink(missing_ok=True)
