"""Places on grids of maps, in degrees by PROJ: a check of the reader of shapefiles.

    pip install pyproj==3.7.2       # PROJ 9.5.1
    python map_grids.py > map_grids.json

The .prj texts are those that PROJ writes for programs for maps. Degrees are on the grid's own
datum. The places are invented.
"""

import json

from pyproj import CRS, Transformer

# Name of the system, and a corner on it: east and north, in its own units.
PLACES = [
    ("EPSG:26914", 550_000.0, 4_200_000.0),  # UTM on NAD 83, meters
    ("EPSG:32633", 450_000.0, 5_400_000.0),  # UTM on WGS 84
    ("EPSG:31982", 600_000.0, 7_400_000.0),  # UTM south of the equator
    ("ESRI:102678", 1_400_000.0, 1_600_000.0),  # Lambert, feet, two parallels
    ("EPSG:2278", 1_900_000.0, 13_700_000.0),
    ("EPSG:6343", 700_000.0, 3_500_000.0),
    ("ESRI:102003", -200_000.0, 100_000.0),  # Albers
    ("EPSG:3857", -11_000_000.0, 4_500_000.0),  # the Mercator of maps on the web
    ("EPSG:2193", 1_700_000.0, 5_500_000.0),
    ("EPSG:25832", 600_000.0, 5_400_000.0),
    ("EPSG:28355", 400_000.0, 6_200_000.0),
    ("EPSG:6372", 2_600_000.0, 1_100_000.0),
    ("EPSG:4547", 480_000.0, 3_900_000.0),
    ("EPSG:3395", -11_000_000.0, 4_500_000.0),  # Mercator on the ellipsoid
]
# A square field of so many units.
SIDE = 1_300.0

# On datums that lie apart from WGS 84: refused. Those of 2100 and 2039 share its ellipsoid.
APART = ["EPSG:26714", "EPSG:4267", "EPSG:27700", "EPSG:31467", "EPSG:2100", "EPSG:2039"]

# The well-known text of programs for maps, in the kinds there are.
KINDS = ["WKT1_ESRI", "WKT1_GDAL", "WKT2_2015", "WKT2_2019"]


def texts(crs):
    return [text for text in (crs.to_wkt(kind) for kind in KINDS) if text]


rows = []
for name, east, north in PLACES:
    crs = CRS(name)
    to_degrees = Transformer.from_crs(crs, crs.geodetic_crs, always_xy=True)
    corners = [(east, north), (east, north + SIDE), (east + SIDE, north + SIDE), (east + SIDE, north)]
    rows.append({
        "grid": crs.name,
        "prjs": texts(crs),
        "corners": corners,
        "degrees": [to_degrees.transform(*corner) for corner in corners],
    })
apart = [{"grid": CRS(name).name, "prjs": texts(CRS(name))} for name in APART]
print(json.dumps({"made_by": "pyproj 3.7.2, PROJ 9.5.1", "grids": rows, "apart": apart}, indent=1))
