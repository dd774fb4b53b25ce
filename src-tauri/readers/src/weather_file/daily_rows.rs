//! Rows gathered by station, and days put together from single elements.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use ripening::temperature::TempUnit;
use ripening::weather::RawDay;

use super::StationRows;

/// Rows by station, in the order in which the stations first appear.
#[derive(Default)]
pub(super) struct Stations {
    names: Vec<Option<Vec<u8>>>,
    rows: Vec<Vec<RawDay>>,
    last: usize,
    days: usize,
}

impl Stations {
    pub(super) fn push(&mut self, station: Option<&[u8]>, row: RawDay) {
        self.days += 1;
        let place = self.place(station);
        if let Some(rows) = self.rows.get_mut(place) {
            rows.push(row);
        }
    }

    /// Days held.
    pub(super) fn days(&self) -> usize {
        self.days
    }

    fn place(&mut self, station: Option<&[u8]>) -> usize {
        let is = |name: &Option<Vec<u8>>| name.as_deref() == station;
        // Nearly always the station of the row before.
        if !self.names.get(self.last).is_some_and(is) {
            self.last = self.names.iter().position(is).unwrap_or_else(|| {
                self.names.push(station.map(<[u8]>::to_vec));
                self.rows.push(Vec::new());
                self.names.len() - 1
            });
        }
        self.last
    }

    pub(super) fn into_rows(self) -> Vec<StationRows> {
        self.names
            .into_iter()
            .zip(self.rows)
            .map(|(name, rows)| StationRows {
                station: name.map(|name| String::from_utf8_lossy(&name).into_owned()),
                rows,
            })
            .collect()
    }
}

/// An element of GHCN-Daily that the app uses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Element {
    /// Highest temperature, tenths of a degree C.
    High,
    /// Lowest temperature, tenths of a degree C.
    Low,
    /// Rain, tenths of a millimetre.
    Rain,
    /// Mean relative humidity, percent.
    Humidity,
}

impl Element {
    pub(super) fn named(name: &[u8]) -> Option<Element> {
        match name {
            b"TMAX" => Some(Element::High),
            b"TMIN" => Some(Element::Low),
            b"PRCP" => Some(Element::Rain),
            b"RHAV" => Some(Element::Humidity),
            _ => None,
        }
    }
}

/// The sign for "not measured" in GHCN-Daily.
pub(super) const NOT_MEASURED: f64 = -9999.0;

/// Days put together from elements that come one by one.
#[derive(Default)]
pub(super) struct ElementRows {
    stations: Vec<(Vec<u8>, BTreeMap<NaiveDate, RawDay>)>,
    days: usize,
}

impl ElementRows {
    /// One value in the source's own unit.
    pub(super) fn add(
        &mut self,
        station: &[u8],
        date: NaiveDate,
        line: u64,
        element: Element,
        value: f64,
    ) {
        let known = self
            .stations
            .iter()
            .rposition(|(name, _)| name.as_slice() == station);
        let place = known.unwrap_or_else(|| {
            self.stations.push((station.to_vec(), BTreeMap::new()));
            self.stations.len() - 1
        });
        let Some((_, days)) = self.stations.get_mut(place) else {
            return;
        };
        let day = days.entry(date).or_insert_with(|| {
            self.days += 1;
            RawDay {
                line: Some(line),
                date,
                unit: TempUnit::Celsius,
                high: None,
                low: None,
                rain_in: None,
                humidity: None,
            }
        });
        match element {
            Element::High => day.high = Some(value / 10.0),
            Element::Low => day.low = Some(value / 10.0),
            Element::Rain => day.rain_in = Some(value / 254.0),
            Element::Humidity => day.humidity = Some(value),
        }
    }

    /// Days held.
    pub(super) fn days(&self) -> usize {
        self.days
    }

    /// Days without a high and a low are left out: rain alone makes no heat.
    pub(super) fn into_rows(self) -> Vec<StationRows> {
        self.stations
            .into_iter()
            .map(|(name, days)| StationRows {
                station: Some(String::from_utf8_lossy(&name).into_owned()),
                rows: days
                    .into_values()
                    .filter(|day| day.high.is_some() || day.low.is_some())
                    .collect(),
            })
            .collect()
    }
}
