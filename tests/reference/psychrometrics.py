"""Writes psychrometrics.csv: dew point, wet bulb and vapor pressures of moist
air by psychrolib, an independent implementation of the ASHRAE Handbook
(Fundamentals 2017, chapter 1). Run with `pip install psychrolib==2.5.0`."""

import csv
import pathlib

import psychrolib

psychrolib.SetUnitSystem(psychrolib.SI)
HERE = pathlib.Path(__file__).parent

with open(HERE / "psychrometrics.csv", "w", newline="") as out:
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(
        ["temp_c", "humidity", "pressure_kpa", "saturation_kpa", "dew_point_c", "wet_bulb_c"]
    )
    for pressure_kpa in (101.325, 85.0):
        for temp_c in (2, 8, 14, 20, 26, 32, 38):
            for humidity in (15, 30, 45, 60, 75, 90):
                rh = humidity / 100
                rows.writerow(
                    [
                        temp_c,
                        humidity,
                        pressure_kpa,
                        f"{psychrolib.GetSatVapPres(temp_c) / 1000:.6f}",
                        f"{psychrolib.GetTDewPointFromRelHum(temp_c, rh):.4f}",
                        f"{psychrolib.GetTWetBulbFromRelHum(temp_c, rh, pressure_kpa * 1000):.4f}",
                    ]
                )
