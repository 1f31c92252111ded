#!/usr/bin/env python3
"""Reads a Darwin Core Archive of the demo book with somebody else's reader and holds it against the table and
the records of the same book, field for field.

read-archive.py PROGRAM [BOOK]

PROGRAM is the poreline to try. BOOK is a copy of the demo book, which is changed; without it one is made.
Needs python-dwca-reader, and metapype, whose rules for EML are those of the Environmental Data
Initiative."""

import csv
import json
import math
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET
import zipfile
from pathlib import Path

from dwca.read import DwCAReader
from metapype.eml import validate
from metapype.model import metapype_io

DWC = "http://rs.tdwg.org/dwc/terms/"
DCTERMS = "http://purl.org/dc/terms/"
FACT = DWC + "MeasurementOrFact"
PHOTO = "http://rs.gbif.org/terms/1.0/Multimedia"
# What is hard on tables: quotes, commas, what spreadsheets take for a formula, letters beyond Latin 1.
AWKWARD = {
    "AFFG-0114": ["occurrenceRemarks=thin, \"papery\"; 'dry', ½ eaten", "habitat==SUM(1;2)"],
    "AFFG-0117": ["decimalLatitude=52.637", "decimalLongitude=-1.139", "geodeticDatum=EPSG:4326"],
    "AFFG-0121": ["recordedBy=Łucja Dunmore | Tom Ashdown", "occurrenceRemarks=-18 °C for a week & dried <well>"],
}
# Keys of records that bear the name of the term they stand for.
SAME = [
    "occurrenceID", "basisOfRecord", "catalogNumber", "recordedBy", "eventDate", "eventID", "locality",
    "countryCode", "decimalLatitude", "decimalLongitude", "geodeticDatum", "habitat", "scientificName",
    "identificationQualifier", "identifiedBy", "dateIdentified", "identificationRemarks", "disposition",
    "occurrenceRemarks",
]
# What a recorder wrote down, by the beginning of the fact's identifier.
SEEN = [
    "hostWood", "substrate", "decayStage", "capZonation", "hairiness", "flexibility", "undersideColour", "smell",
    "sporePrint",
]

compared = 0


def same(what, archive, book):
    global compared
    compared += 1
    if archive != book:
        sys.exit(f"{what}: the archive says {archive!r}, the book {book!r}")


def near(what, archive, book):
    global compared
    compared += 1
    if not math.isclose(float(archive), book, rel_tol=1e-9):
        sys.exit(f"{what}: the archive says {archive}, the book {book}")


def unguarded(cell):
    """A table for spreadsheets has an apostrophe before what would run as a formula."""
    return cell[1:] if cell[:1] == "'" and cell[1:2] in list("=+-@\t\r") else cell


def as_text(value):
    if value is None:
        return ""
    return value if isinstance(value, str) else repr(value).removesuffix(".0")


def check_xml(path):
    """Both files that describe an archive are well-formed and of the right name."""
    with zipfile.ZipFile(path) as files:
        same("damaged file of the archive", files.testzip(), None)
        meta = ET.fromstring(files.read("meta.xml"))
        eml = ET.fromstring(files.read("eml.xml"))
        names = set(files.namelist())
    same("root of meta.xml", meta.tag, "{http://rs.tdwg.org/dwc/text/}archive")
    same("root of eml.xml", eml.tag, "{https://eml.ecoinformatics.org/eml-2.2.0}eml")
    located = {node.text for node in meta.iter("{http://rs.tdwg.org/dwc/text/}location")}
    same("files of the archive", names, located | {"meta.xml", meta.attrib["metadata"]})
    for needed in ("title", "creator", "pubDate", "language", "abstract", "contact", "intellectualRights"):
        found = eml.find(f"dataset/{needed}")
        if found is None or not "".join(found.itertext()).strip():
            sys.exit(f"eml.xml tells no {needed}")


def eml_faults(text):
    faults = []
    validate.tree(metapype_io.from_xml(text), faults)
    return [" ".join(map(str, fault[:2])) for fault in faults]


def check_eml(path):
    """The metadata keep the rules of EML 2.2.0; without a title they would not."""
    with zipfile.ZipFile(path) as files:
        text = files.read("eml.xml").decode("utf-8")
    same("faults of eml.xml", eml_faults(text), [])
    begin, end = text.index("<title>"), text.index("</title>") + len("</title>")
    if not eml_faults(text[:begin] + text[end:]):
        sys.exit("eml.xml without a title passes, so the check sees nothing")


def check_facts(number, record, facts):
    """Facts against the record's own words and findings."""
    by_code = {row.data[DWC + "measurementID"].split("#", 1)[1]: row.data for row in facts}
    same(f"{number}: facts told apart", len(by_code), len(facts))
    expected = 0
    for key in SEEN:
        if key in record:
            same(f"{number} {key}", by_code[key][DWC + "measurementValue"], record[key])
            expected += 1
    if "capWidthCm" in record:
        near(f"{number} cap width", by_code["capWidth"][DWC + "measurementValue"], record["capWidthCm"])
        same(f"{number} unit", by_code["capWidth"][DWC + "measurementUnit"], "cm")
        expected += 1
    for attached in record.get("measurements", []):
        findings = attached["findings"]
        photo = findings["photo"]["sha256"][:16]

        def fact(code):
            one = by_code[f"{photo}-{code}"]
            same(f"{number} by", one[DWC + "measurementDeterminedBy"], attached["measurementDeterminedBy"])
            same(f"{number} on", one[DWC + "measurementDeterminedDate"], attached["measurementDeterminedDate"])
            return one

        same(f"{number} underside", fact("surface")[DWC + "measurementValue"], findings["surface"]["type"])
        expected += 1
        for things in ("pores", "teeth", "gills", "maze"):
            found = findings[things]
            if not found:
                continue
            per_mm = fact("perMm")
            near(f"{number} per mm", per_mm[DWC + "measurementValue"], found["per_mm"]["value"])
            half = (found["per_mm"]["high"] - found["per_mm"]["low"]) / 2
            same(f"{number} accuracy", per_mm[DWC + "measurementAccuracy"], f"{half:.3f}")
            same(f"{number} unit", per_mm[DWC + "measurementUnit"], "/mm")
            expected += 1
            if "count" in found:
                same(f"{number} count", fact("count")[DWC + "measurementValue"], str(found["count"]))
                expected += 1
        pores = findings["pores"]
        if pores:
            same(f"{number} phrase", fact("handbook")[DWC + "measurementValue"], pores["handbook"])
            near(f"{number} width", fact("diameter")[DWC + "measurementValue"], pores["diameter_mm"]["mean"])
            near(f"{number} elongation", fact("elongation")[DWC + "measurementValue"], pores["elongation"]["median"])
            near(f"{number} wall", fact("wall")[DWC + "measurementValue"], pores["wall_mm"]["median"])
            near(f"{number} hollow", fact("voidFraction")[DWC + "measurementValue"], pores["void_fraction"])
            expected += 5
    same(f"{number}: number of facts", len(facts), expected)


def check_photos(number, record, photos):
    links = record.get("photos", [])
    same(f"{number}: photos", len(photos), len(links))
    for row, link in zip(photos, links):
        same(f"{number} photo", row.data[DCTERMS + "description"], f"SHA-256 {link['sha256']}")
        same(f"{number} photo", row.data[DCTERMS + "identifier"].split("/")[-1], link["path"].split("/")[-1])
        same(f"{number} photo", row.data[DCTERMS + "type"], "StillImage")


def main(program, book):
    def poreline(*typed):
        done = subprocess.run([program, "book", *map(str, typed)], check=True, capture_output=True, text=True)
        return done.stdout

    folder = book.parent
    for number, fields in AWKWARD.items():
        poreline("set", book, number, *fields)
    archive, table = folder / "fen.zip", folder / "fen.csv"
    poreline("export", book, "--darwin-core", archive, "--csv", table)
    records = {}
    for line in poreline("list", book, "--json").splitlines():
        record = json.loads(line)
        records[record["occurrenceID"]] = record
    with open(table, encoding="utf-8", newline="") as file:
        rows = {row["occurrenceID"]: row for row in csv.DictReader(file)}

    check_xml(archive)
    check_eml(archive)
    with DwCAReader(str(archive)) as reader:
        same("kind of core", reader.descriptor.core.type, DWC + "Occurrence")
        same("title", reader.metadata.find("dataset/title").text, json.loads((book / "book.json").read_text())["datasetName"])
        seen = []
        for core in reader:
            row, record = rows[core.id], records[core.id]
            number = record["catalogNumber"]
            for term, cell in core.data.items():
                same(f"{number} {term}", cell, unguarded(row[term.rsplit("/", 1)[1]]))
            for key in SAME:
                same(f"{number} {key}", core.data[DWC + key], as_text(record.get(key)))
            facts = [one for one in core.extensions if one.rowtype == FACT]
            photos = [one for one in core.extensions if one.rowtype == PHOTO]
            same(f"{number}: extensions", len(core.extensions), len(facts) + len(photos))
            check_facts(number, record, facts)
            check_photos(number, record, photos)
            seen.append(core.id)
    same("records", sorted(seen), sorted(records))
    same("rows of the table", sorted(seen), sorted(rows))
    print(f"{len(seen)} records, {compared} fields the same")


if __name__ == "__main__":
    if len(sys.argv) > 2:
        main(sys.argv[1], Path(sys.argv[2]))
    else:
        with tempfile.TemporaryDirectory() as made:
            made = Path(made) / "fen"
            subprocess.run([sys.argv[1], "book", "demo", str(made)], check=True)
            main(sys.argv[1], made)
