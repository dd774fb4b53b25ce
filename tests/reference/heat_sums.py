"""Writes heat_sums.csv: heat units by month for the open weather data, computed
without any code of the project. Needs nothing but Python.

A day: the high lowered to the upper limit, the low raised to the base, their mean
less the base, never below 0. Sums in Fahrenheit for 50/100 and 50/86, in Celsius
for 10/37.7778."""

import csv
import pathlib

HERE = pathlib.Path(__file__).parent
DATA = HERE.parent / "open-data"
UPPER_C = (100 - 32) / 1.8


def day(high, low, base, upper):
    high = max(min(high, upper), base)
    low = min(max(low, base), upper)
    return max((high + low) / 2 - base, 0)


with open(HERE / "heat_sums.csv", "w", newline="") as out:
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(["city", "month", "days", "f_50_100", "f_50_86", "c_10_38"])
    for city in ("new_york", "seattle"):
        months = {}
        with open(DATA / f"{city}_2012_2015.csv") as weather:
            for row in csv.DictReader(weather):
                high_c, low_c = float(row["high_c"]), float(row["low_c"])
                high_f, low_f = high_c * 9 / 5 + 32, low_c * 9 / 5 + 32
                sums = months.setdefault(row["date"][:7], [0, 0.0, 0.0, 0.0])
                sums[0] += 1
                sums[1] += day(high_f, low_f, 50, 100)
                sums[2] += day(high_f, low_f, 50, 86)
                sums[3] += day(high_c, low_c, 10, UPPER_C)
        for month in sorted(months):
            days, *units = months[month]
            rows.writerow([city, month, days] + [f"{value:.4f}" for value in units])
