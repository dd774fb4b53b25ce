//! What may be asked about the weather.

use uuid::Uuid;

use crate::asking::asks;
use crate::{Done, Keep, NearStations, Place, StationList, TypedDay, WeatherFileReview};

asks! {
    /// The weather stations held.
    List Stations -> StationList = |service| service.stations();

    /// Stations with a known place, the nearest to this one first.
    Tap NearestStations {
        /// The position to measure from.
        place: Place,
    } -> NearStations = |service| service.nearest_stations(place);

    /// Changes: gives a station a place.
    Tap PlaceStation {
        /// Its name.
        name: String,
        /// The position of the station.
        place: Place,
    } -> Done = |service| service.place_station(&name, place);

    /// Changes: says which station's weather counts for a planting; none leaves
    /// the choice to the app (the nearest to its stops, or the only one).
    Tap UseStation {
        /// Id of the planting.
        planting: Uuid,
        /// The station's name.
        station: Option<String>,
        /// For every planting of its field that names none itself, rather than for
        /// this planting alone.
        #[serde(default)]
        whole_field: bool,
    } -> Done = |service| service.use_station(planting, station.as_deref(), whole_field);

    /// Stations as a planting may choose among them, the nearest first.
    Tap StationChoice {
        /// Id of the planting.
        planting: Uuid,
    } -> crate::StationChoice = |service| service.station_choice(planting);

    /// Changes: stores one day's weather typed on the phone.
    Tap TypeWeather {
        /// All that is said of it.
        #[serde(flatten)]
        day: TypedDay,
    } -> Done = |service| service.type_weather(&day);

    /// Reads a weather file (the app's table, or GHCN-Daily) without storing
    /// anything.
    Study ReviewWeatherFile {
        /// The file's text.
        text: String,
        /// Name of the station, where the file names none.
        station: Option<String>,
        /// Id of this work, as with the import.
        job: Option<Uuid>,
    } -> WeatherFileReview = |service| {
        service.weather_file(&text, station.as_deref(), (Keep::Nothing, false), job)
    };

    /// Changes: stores what is new of a weather file, all or nothing.
    Study ImportWeatherFile {
        /// The file's text.
        text: String,
        /// Name of the station, where the file names none.
        station: Option<String>,
        /// Refuses the whole file for the first bad row.
        #[serde(default)]
        strict: bool,
        /// Id of this work, chosen by the caller, to ask how far it is or to stop
        /// it while it runs.
        job: Option<Uuid>,
    } -> WeatherFileReview = |service| service.weather_file(&text, station.as_deref(), (Keep::GoodRows, strict), job);
}
