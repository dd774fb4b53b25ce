//! Weather and planting files, good and bad. The GHCN-Daily lines are written by
//! hand after the column positions of its public description (NOAA NCEI,
//! GHCN-Daily readme, section III).

#![allow(clippy::unwrap_used, clippy::expect_used)]

use chrono::NaiveDate;
use readers::planting_file::{self, PlantingFault, PlantingFileError};
use readers::weather_file::{Going, Layout, RowFault, Watch, WeatherFile, WeatherFileError, read};
use ripening::temperature::TempUnit;
use service::{Area, Purpose};

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn weather(text: &str) -> Result<WeatherFile, WeatherFileError> {
    read(text.as_bytes(), &mut Watch::none())
}

#[test]
fn table_in_us_units() {
    let file = weather(
        "\u{feff}Date, high_f,low_f,rain_in,humidity,station,remark\n\
         2026-07-01,95,65,0.25,55,North,\"hot, dry\"\n\
         2026-07-02,M,65,T,,North\n\
         2026-07-03,90,60,999,,South\n",
    )
    .unwrap();
    assert_eq!(file.layout, Layout::Table);
    assert_eq!(file.problems, []);
    assert_eq!(file.stations.len(), 2);
    let north = &file.stations[0];
    assert_eq!(north.station.as_deref(), Some("North"));
    assert_eq!(north.rows[0].line, Some(2));
    assert_eq!(north.rows[0].date, date("2026-07-01"));
    assert_eq!(
        (north.rows[0].high, north.rows[0].low),
        (Some(95.0), Some(65.0))
    );
    assert_eq!(north.rows[0].rain_in, Some(0.25));
    assert_eq!(north.rows[0].humidity, Some(55.0));
    assert_eq!(
        (north.rows[1].high, north.rows[1].rain_in),
        (None, Some(0.0))
    );
    assert_eq!(file.stations[1].rows[0].rain_in, None);
}

#[test]
fn table_in_metric_units() {
    let file = weather("date,low_c,high_c,rain_mm\n2026-07-01,18.3,35.0,25.4\n").unwrap();
    let row = file.stations[0].rows[0];
    assert_eq!(row.unit, TempUnit::Celsius);
    assert_eq!(
        (row.high, row.low, row.rain_in),
        (Some(35.0), Some(18.3), Some(1.0))
    );
    assert_eq!(file.stations[0].station, None);
}

#[test]
fn bad_lines_are_told_and_the_good_are_used() {
    let file = weather(
        "date,high_f,low_f\n\
         2026-07-01,95,65\n\
         2025-02-29,60,30\n\
         07/03/2026,95,65\n\
         2026-07-04,hot,65\n\
         2026-07-05\n\
         2026-07-06,90,60\n",
    )
    .unwrap();
    assert_eq!(file.stations[0].rows.len(), 2);
    let faults: Vec<(u64, RowFault)> = file
        .problems
        .into_iter()
        .map(|problem| (problem.line, problem.fault))
        .collect();
    assert_eq!(
        faults,
        [
            (3, RowFault::NoDate("2025-02-29".to_owned())),
            (4, RowFault::NoDate("07/03/2026".to_owned())),
            (
                5,
                RowFault::NoNumber {
                    column: "high",
                    text: "hot".to_owned()
                }
            ),
            (6, RowFault::TooShort),
        ]
    );
}

#[test]
fn files_that_are_none_are_refused() {
    assert!(matches!(weather(""), Err(WeatherFileError::UnknownLayout)));
    assert!(matches!(
        weather("planting,walked_on\n"),
        Err(WeatherFileError::UnknownLayout)
    ));
    assert!(matches!(
        weather("date,high_f,low_c\n2026-07-01,95,18\n"),
        Err(WeatherFileError::ColumnsMissing)
    ));
    let none = weather("date,high_f,low_f\n2026-07-xx,95,65\n").unwrap_err();
    assert_eq!(
        none.to_string(),
        "no usable row (1 bad; the first: line 2: date '2026-07-xx' is no date: use YYYY-MM-DD)"
    );
}

/// A `.dly` line: `days` are values with their three flags.
fn dly(element: &str, year: i32, month: u32, days: &[(i32, &str)]) -> String {
    let mut line = format!("USC00140001{year:04}{month:02}{element}");
    for day in 0..31 {
        let (value, flags) = days.get(day).copied().unwrap_or((-9999, "   "));
        line.push_str(&format!("{value:5}{flags}"));
    }
    line + "\n"
}

#[test]
fn ghcn_fixed_width() {
    let text = dly("TMAX", 2016, 2, &[(100, "  7"), (-50, "  7"), (400, " I7")])
        + &dly("TMIN", 2016, 2, &[(10, "  7"), (-150, "  7"), (-20, "  7")])
        + &dly("SNOW", 2016, 2, &[(10, "  7")])
        + &dly("PRCP", 2016, 2, &[(254, "  7"), (0, "T 7")]);
    let file = weather(&text).unwrap();
    assert_eq!(file.layout, Layout::FixedWidth);
    assert_eq!(file.stations.len(), 1);
    assert_eq!(file.stations[0].station.as_deref(), Some("USC00140001"));
    let rows = &file.stations[0].rows;
    assert_eq!(rows.len(), 3);
    assert_eq!(
        (rows[0].high, rows[0].low, rows[0].rain_in),
        (Some(10.0), Some(1.0), Some(1.0))
    );
    assert_eq!((rows[1].high, rows[1].low), (Some(-5.0), Some(-15.0)));
    // The third high failed the source's quality check.
    assert_eq!((rows[2].high, rows[2].low), (None, Some(-2.0)));
    assert_eq!(file.problems.len(), 1);
    assert!(matches!(
        file.problems[0].fault,
        RowFault::FailedQuality { flag: 'I', .. }
    ));
    // 30 February.
    let mut days = [(-9999, "   "); 31];
    days[0] = (100, "  7");
    days[29] = (100, "  7");
    let file = weather(&dly("TMAX", 2016, 2, &days)).unwrap();
    assert_eq!(
        file.problems[0].fault,
        RowFault::NoDate("2016-02-30".to_owned())
    );
}

#[test]
fn ghcn_by_station() {
    for header in [
        "",
        "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n",
    ] {
        let file = weather(&format!(
            "{header}USC00140001,20150701,TMAX,350,,,7,0800\n\
             USC00140001,20150701,TMIN,183,,,7,0800\n\
             USC00140001,20150701,PRCP,254,,,7,0800\n\
             USC00140001,20150702,TMAX,990,,X,7,0800\n\
             USC00140001,20150702,TMIN,-9999,,,7,0800\n\
             USC00140001,20150703,TMAX,340,,,7,0800\n"
        ))
        .unwrap();
        assert_eq!(file.layout, Layout::ByStation);
        let rows = &file.stations[0].rows;
        assert_eq!(rows.len(), 2);
        assert_eq!(
            (rows[0].high, rows[0].low, rows[0].rain_in),
            (Some(35.0), Some(18.3), Some(1.0))
        );
        assert_eq!(rows[1].date, date("2015-07-03"));
        assert_eq!(file.problems.len(), 1);
    }
}

#[test]
fn ghcn_daily_summaries() {
    let file = weather(
        "\"STATION\",\"DATE\",\"LATITUDE\",\"PRCP\",\"PRCP_ATTRIBUTES\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_ATTRIBUTES\"\n\
         \"USC00140001\",\"2015-07-01\",\"38.1\",\"  254\",\",,7\",\"  350\",\",,7\",\"  183\",\",,7\"\n\
         \"USC00140001\",\"2015-07-02\",\"38.1\",,,\"  990\",\",X,7\",\"  183\",\",,7\"\n",
    )
    .unwrap();
    assert_eq!(file.layout, Layout::DailySummaries);
    let rows = &file.stations[0].rows;
    assert_eq!(
        (rows[0].high, rows[0].low, rows[0].rain_in),
        (Some(35.0), Some(18.3), Some(1.0))
    );
    assert_eq!(rows[0].unit, TempUnit::Celsius);
    assert_eq!(file.problems.len(), 1);
}

#[test]
fn a_long_read_tells_its_progress_and_stops() {
    let mut text = String::from("date,high_f,low_f\n");
    for _ in 0..5000 {
        text.push_str("2026-07-01,95,65\n");
    }
    let mut told = Vec::new();
    let mut tell = |rows| {
        told.push(rows);
        Going::On
    };
    read(text.as_bytes(), &mut Watch::with(&mut tell)).unwrap();
    assert_eq!(told, [2048, 4096]);
    let mut stop = |_| Going::Stop;
    assert!(matches!(
        read(text.as_bytes(), &mut Watch::with(&mut stop)),
        Err(WeatherFileError::Stopped)
    ));
}

#[test]
fn planting_file() {
    let file = planting_file::read(
        "planting,hybrid,planted_on,purpose,field,station,hectares,half_bloom_on,owner\n\
         A,H-1,2026-05-20,grain,North,Airport,40,2026-07-25,x\n\
         B,,2026-05-21,silage,,,,,\n\
         ,H-1,2026-05-20,grain,,,,,\n\
         A,H-2,2026-05-22,grain,,,,,\n\
         C,H-1,20 May,grain,,,,,\n\
         D,H-1,2026-05-20,hay,,,,,\n\
         E,H-1,2026-05-20,grain,,,0,,\n\
         F,H-1,2026-05-20,seed,,,,2026-05-01,\n"
            .as_bytes(),
        &mut Watch::none(),
    )
    .unwrap();
    assert_eq!(file.plantings.len(), 2);
    let first = &file.plantings[0];
    assert_eq!(first.planting, "A");
    assert_eq!(first.hybrid.as_deref(), Some("H-1"));
    assert_eq!(first.area, Some(Area::Hectares(40.0)));
    assert_eq!(first.half_bloom_on, Some(date("2026-07-25")));
    assert_eq!(first.station.as_deref(), Some("Airport"));
    assert_eq!(file.plantings[1].purpose, Purpose::Silage);
    assert_eq!(file.plantings[1].hybrid, None);
    let faults: Vec<(u64, PlantingFault)> = file
        .problems
        .into_iter()
        .map(|problem| (problem.line, problem.fault))
        .collect();
    assert_eq!(faults[0], (4, PlantingFault::NoName));
    assert_eq!(
        faults[1],
        (
            5,
            PlantingFault::NameAgain {
                name: "A".to_owned(),
                first: 2
            }
        )
    );
    assert!(matches!(faults[2], (6, PlantingFault::NoDate { .. })));
    assert_eq!(faults[3], (7, PlantingFault::NoPurpose("hay".to_owned())));
    assert!(matches!(faults[4], (8, PlantingFault::NoArea { .. })));
    assert!(matches!(
        faults[5],
        (9, PlantingFault::BloomBeforePlanting { .. })
    ));

    let refused = planting_file::read("planting,hybrid\n".as_bytes(), &mut Watch::none());
    assert!(matches!(
        refused,
        Err(PlantingFileError::ColumnMissing("planted_on"))
    ));
}
