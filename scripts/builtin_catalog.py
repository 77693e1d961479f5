#!/usr/bin/env python3
"""Writes catalog/sources.csv, units.csv and points.csv, the data built into the program.

Reads catalog/raw/airair_units.json (certified air-to-air units, anonymised) and catalog/raw/generic_maps.csv (generic
variable-speed maps); the demo family is made up in demo_family.py. Standard library only; the same files every time.
"""

import csv
import json
from pathlib import Path

import coil
import demo_family

ROOT = Path(__file__).resolve().parent.parent
RAW = ROOT / "catalog" / "raw"

SOURCE_FIELDS = ["source", "title", "publisher", "year", "reference", "licence", "kind", "note"]
UNIT_FIELDS = [
    "unit", "maker", "outdoor_model", "indoor_model", "form", "refrigerant", "certified", "hspf", "hspf2", "scop", "seer",
    "seer2", "operates_to_c", "airflow_l_s", "external_static_pa", "sound_db_a", "circuit_ampacity_a", "standby_w",
    "degradation_heating", "degradation_cooling", "price", "currency", "source"]
POINT_FIELDS = [
    "unit", "mode", "speed", "outdoor_db_c", "indoor_db_c", "indoor_wb_c", "capacity_kw", "cop", "shr", "airflow_l_s",
    "fan_basis", "frost_basis"]

# The bypass factor at which the airflow of the generic maps is chosen: ours, in the usual range of clean coils.
BYPASS = 0.10
RATING_DRY, RATING_WET = 26.67, 19.44
NOMINAL_SIZES = [5, 7, 9, 11, 14]

SOURCES = [
    {
        "source": "certified-air-air",
        "title": "Air-to-air single splits with certified EN 14825 declarations, anonymised",
        "publisher": "hplib, open heat-pump library: tables of a certification register",
        "year": 2024,
        "reference": "air/air records, commit 125c2ef",
        "licence": "CC BY 4.0",
        "kind": "standard_test",
        "note":
            "Points at -7 °C and colder and at the operation limit are maximum capacity; the part-load points at +2 and "
            "+7 °C are entered as rated and the one at +12 °C as minimum, although a part-load test runs at whatever "
            "speed meets the load. Cooling alike: 35 °C maximum, 30 and 25 °C rated, 20 °C minimum. Five units "
            "are declared for the warmer season only, whose design temperature is +2 °C. For three (AA011, AA013, AA015) "
            "the point at +2 °C, entered as rated, is their full load; for two (AA022, AA024) the limit of +2 °C ends "
            "that season and not the unit's operation, so it is left blank. Assumptions of ours: the year 2024 (from "
            "memory); indoor air as in the standard's tests, 20 °C in heating, 27 °C with 19 °C wet bulb in cooling, "
            "which the register does not state; the form of the indoor unit, wall, which it does not state either. "
            "Standby is the declared standby power. Changed: brands removed, speeds assigned.",
    },
    {
        "source": "generic-maps",
        "title": "Generic variable-speed performance maps, four speeds",
        "publisher": "open residential energy library of a US national laboratory",
        "year": None,
        "reference": "ducted map of 10.0 HSPF and 22.0 SEER, ductless map of 8.2 HSPF and 13.0 SEER",
        "licence": "BSD-3-Clause",
        "kind": "generic",
        "note":
            "Stands for a class of units, not for one that can be bought. Scaled to a nominal cooling capacity; speed 1 is "
            "minimum, 3 rated, 4 maximum. The lowest ducted speed is left out below -8.33 °C, where the map's capacity "
            "falls below zero. The library's sensible heat ratio holds at 35 °C; the maps give no airflow, so we choose the "
            f"one at which a coil with a bypass factor of {BYPASS:.2f} has that ratio, and take the ratio at other outdoor "
            "temperatures from the same coil and airflow.",
    },
    demo_family.SOURCE,
]


def certified():
    """Units and points of the certified register."""
    units, points = [], []
    for unit in json.loads((RAW / "airair_units.json").read_text())["units"]:
        key, limit = unit["unit"], unit["TOL"]
        units.append({
            "unit": key, "form": "wall", "refrigerant": unit["refrigerant"], "certified": "yes",
            "scop": unit["SCOP_cert"], "seer": unit["SEER_cert"],
            # A season that ends at its own design temperature says nothing about how cold the unit can run.
            "operates_to_c": None if unit["climate"] == "warmer" and limit == 2 else limit,
            "standby_w": unit["off_W"]["psb"],
            "degradation_heating": one_value(point[3] for point in unit["points"]),
            "degradation_cooling": one_value(point[3] for point in unit["cool_points"]),
            "source": "certified-air-air"})
        for outdoor, capacity, cop, _ in unit["points"]:
            if outdoor <= -7 or outdoor == limit:
                speed = "maximum"
            else:
                speed = {2: "rated", 7: "rated", 12: "minimum"}[outdoor]
            points.append({
                "unit": key, "mode": "heating", "speed": speed, "outdoor_db_c": outdoor, "indoor_db_c": 20,
                "capacity_kw": capacity, "cop": cop})
        for outdoor, capacity, cop, _ in unit["cool_points"]:
            speed = {35: "maximum", 30: "rated", 25: "rated", 20: "minimum"}[outdoor]
            points.append({
                "unit": key, "mode": "cooling", "speed": speed, "outdoor_db_c": outdoor, "indoor_db_c": 27,
                "indoor_wb_c": 19, "capacity_kw": capacity, "cop": cop})
    return units, points


def one_value(values):
    """The value, where all that are stated agree; else nothing."""
    stated = {value for value in values if value is not None}
    return stated.pop() if len(stated) == 1 else None


def generic():
    """Units and points of the generic maps, scaled."""
    with (RAW / "generic_maps.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    speeds = {"1": "minimum", "3": "rated", "4": "maximum"}
    units, points = [], []
    for name, form in [("G1", "ducted"), ("G2", "ductless")]:
        own = [row for row in rows if row["unit"].startswith(f"generic {name}")]
        labels = dict(reversed(row["efficiency_label"].split()) for row in own)
        flow = {}
        for row in own:
            if row["mode"] == "cooling" and row["outdoor_db_C"] == "35":
                per_kw = coil.airflow_per_capacity(RATING_DRY, RATING_WET, float(row["SHR_rated"]), BYPASS)
                flow[row["speed"]] = per_kw * float(row["capacity_per_nominal"])
        for size in NOMINAL_SIZES:
            key = f"generic {form} {size} kW"
            units.append({
                "unit": key, "maker": "generic", "form": "ducted" if form == "ducted" else "wall",
                "hspf": labels["HSPF"], "seer": labels["SEER"], "source": "generic-maps"})
            for row in own:
                outdoor = float(row["outdoor_db_C"])
                if row["speed"] not in speeds:
                    continue
                if name == "G1" and row["mode"] == "heating" and row["speed"] == "1" and outdoor < -8.34:
                    continue
                ratio = float(row["capacity_per_nominal"])
                point = {
                    "unit": key, "mode": row["mode"], "speed": speeds[row["speed"]], "outdoor_db_c": row["outdoor_db_C"],
                    "capacity_kw": f"{size * ratio:.4f}", "cop": row["COP"]}
                if row["mode"] == "heating":
                    point["indoor_db_c"] = row["indoor_C(db heating / wb cooling)"]
                else:
                    airflow = flow[row["speed"]]
                    shr = coil.sensible_heat_ratio(RATING_DRY, RATING_WET, ratio / airflow, BYPASS)
                    point |= {
                        "indoor_db_c": RATING_DRY, "indoor_wb_c": RATING_WET, "shr": f"{shr:.4f}",
                        "airflow_l_s": f"{size * airflow:.1f}"}
                points.append(point)
    return units, points


def write(name, fields, rows):
    with (ROOT / "catalog" / name).open("w", newline="") as file:
        writer = csv.DictWriter(file, fields, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def main():
    units, points = [], []
    for more_units, more_points in [certified(), generic(), demo_family.family()]:
        units += more_units
        points += more_points
    write("sources.csv", SOURCE_FIELDS, SOURCES)
    write("units.csv", UNIT_FIELDS, units)
    write("points.csv", POINT_FIELDS, points)
    print(f"{len(SOURCES)} sources, {len(units)} units, {len(points)} points")


if __name__ == "__main__":
    main()
