//! Spanish.

use chrono::{Datelike, NaiveDate};
use ripening::outlook::{Event, Why};
use ripening::windows::{Caution, FreezeLoss, WindowKind};
use ripening::{Band, Stage};

use super::{LIKELY, Standing, Words, capital, hundredths, temperature};
use crate::line::Whereabouts;
use crate::{Purpose, Units};

pub(super) struct Spanish;

impl Spanish {
    fn place(&self, place: Whereabouts) -> String {
        match place {
            Whereabouts::At(stage) => self.stage(stage).to_owned(),
            Whereabouts::Past(stage) => format!("poco después de {}", self.stage(stage)),
            Whereabouts::HalfwayTo(stage) => format!("a medio camino de {}", self.stage(stage)),
            Whereabouts::Nearing(stage) => format!("cerca de {}", self.stage(stage)),
        }
    }
}

impl Words for Spanish {
    fn tag(&self) -> &'static str {
        "es"
    }
    fn sheet(&self) -> &'static str {
        "Hoja de campo"
    }
    fn stage(&self, stage: Stage) -> &'static str {
        match stage {
            Stage::Boot => "embuche",
            Stage::Heading => "espigado",
            Stage::HalfBloom => "media floración",
            Stage::Milk => "grano lechoso",
            Stage::SoftDough => "masa blanda",
            Stage::HardDough => "masa dura",
            Stage::BlackLayer => "capa negra",
        }
    }
    fn mark(&self, stage: Stage) -> &'static str {
        match stage {
            Stage::HalfBloom => "floración",
            Stage::Milk => "lechoso",
            other => self.stage(other),
        }
    }
    fn purpose(&self, purpose: Purpose) -> &'static str {
        match purpose {
            Purpose::Grain => "grano",
            Purpose::Silage => "silaje",
            Purpose::Seed => "semilla",
        }
    }
    fn planted(&self, on: &str) -> String {
        format!("sembrada el {on}")
    }
    fn area(&self, size: &str, units: Units) -> String {
        match units {
            Units::Us => format!("{size} acres"),
            Units::Metric => format!("{size} ha"),
        }
    }
    fn standing(&self, standing: Standing) -> String {
        match standing {
            Standing::Sure(stage, chance) => format!(
                "En {} ({} de cada cien).",
                self.stage(stage),
                hundredths(chance)
            ),
            Standing::Split(stage, chance, other, then) => {
                let (a, b) = (hundredths(chance), hundredths(then));
                let (stage, other) = (self.stage(stage), self.stage(other));
                if chance >= LIKELY {
                    format!("Probable {stage} ({a} de cada cien), si no {other} ({b}).")
                } else {
                    format!("{} o {other} ({a} y {b} de cada cien).", capital(stage))
                }
            }
        }
    }
    fn band(&self, low: Whereabouts, high: Whereabouts, level: f64) -> String {
        let sure = format!(
            "Con {} probabilidades de cada cien la siembra está",
            hundredths(level)
        );
        let (from, to) = (self.place(low), self.place(high));
        match low {
            Whereabouts::At(_) if from == to => format!("{sure} en {from}."),
            _ if from == to => format!("{sure} {from}."),
            _ => format!("{sure} entre {from} y {to}."),
        }
    }
    fn not_walked(&self) -> &'static str {
        "Todavía sin recorrer: por sus panojas no se sabe nada de su etapa."
    }
    fn from(&self, heads: u32, stops: u32, on: &str, scout: &str) -> String {
        let by = if scout.is_empty() {
            String::new()
        } else {
            format!(" por {scout}")
        };
        format!(
            "Recorrida el {on}{by}: {heads} {} en {stops} {}.",
            if heads == 1 { "panoja" } else { "panojas" },
            if stops == 1 { "parada" } else { "paradas" }
        )
    }
    fn earlier(&self, count: usize) -> String {
        if count == 1 {
            "Bajo la línea, más tenue, una recorrida anterior.".to_owned()
        } else {
            format!("Bajo la línea, más tenues, {count} recorridas anteriores.")
        }
    }
    fn shares_title(&self) -> &'static str {
        "Hasta dónde llegaron las panojas"
    }
    fn shares_head(&self) -> [&'static str; 3] {
        ["De 100 panojas, llegaron a", "unas", "entre"]
    }
    fn shares_note(&self, level: f64) -> String {
        format!(
            "Cada intervalo contiene la verdad {} de cada cien veces.",
            hundredths(level)
        )
    }
    fn next_title(&self) -> &'static str {
        "Lo que viene"
    }
    fn event(&self, event: Event) -> &'static str {
        match event {
            Event::HalfBloom => "media floración",
            Event::Milk => "grano lechoso",
            Event::SoftDough => "masa blanda",
            Event::HardDough => "masa dura",
            Event::BlackLayer => "capa negra",
            Event::Moisture20 => "grano al 20 %",
            Event::Moisture18 => "grano al 18 %",
            Event::Moisture16 => "grano al 16 %",
            Event::Moisture14 => "grano al 14 %",
        }
    }
    fn next_note(&self) -> &'static str {
        "Cada intervalo contiene el día ocho de cada diez veces."
    }
    fn not_before(&self, on: &str) -> String {
        format!("no antes del {on}")
    }
    fn why(&self, why: &Why, date: &dyn Fn(NaiveDate) -> String) -> String {
        match why {
            Why::NotPlantedYet { planted_on } => format!(
                "Sin fechas: se siembra el {}, después del día de esta hoja.",
                date(*planted_on)
            ),
            Why::NothingToStartFrom => {
                "Sin fechas: no hay fecha de siembra ni recorrida de la que partir.".to_owned()
            }
            Why::NoWeather => {
                "Sin fechas: el cuaderno no tiene tiempo registrado para ella.".to_owned()
            }
            Why::HeatUnknown { open_from } => format!(
                "Sin fechas: falta el tiempo desde el {} y no hay recorrida posterior.",
                date(*open_from)
            ),
            Why::WeatherEndsEarly { ends_on } => {
                format!(
                    "Sin fechas: el tiempo registrado termina el {}.",
                    date(*ends_on)
                )
            }
            Why::NoDaysAhead { .. } => {
                "Sin fechas: no hay temporadas pasadas para los días que vienen.".to_owned()
            }
            Why::NotBefore { in_hundred, .. } => {
                format!("no esta temporada en {in_hundred} de 100 posibles")
            }
            Why::BeforeWeather => "antes de que empiece el tiempo registrado".to_owned(),
            Why::NoGrain | Why::NoDryDown { .. } => {
                "La humedad del grano no se pronostica para esta siembra.".to_owned()
            }
        }
    }
    fn windows_title(&self) -> &'static str {
        "Momentos a vigilar, y quién decide"
    }
    fn window(&self, kind: &WindowKind) -> &'static str {
        match kind {
            WindowKind::BootNights(_) => "Noches frías en embuche",
            WindowKind::BloomWeather(_) => "Tiempo durante la floración",
            WindowKind::LastIrrigation => "Último riego",
            WindowKind::Silage => "Corte para silaje",
            WindowKind::HarvestAid => "Desecante",
            WindowKind::Freeze(_) => "Helada antes de la capa negra",
            WindowKind::PrussicAcid(_) => "Ácido prúsico tras una helada",
            WindowKind::Nitrate(_) => "Nitratos en el forraje",
        }
    }
    fn may_be_open(&self) -> &'static str {
        "puede ser ahora"
    }
    fn widest(&self, span: &str) -> String {
        format!("a lo sumo {span}")
    }
    fn freeze(&self, loss: &FreezeLoss, units: Units) -> Option<String> {
        let chance = loss
            .chances
            .iter()
            .find(|chance| (chance.at_f - ripening::outlook::INJURY_F).abs() < 0.1)?;
        let at = temperature(chance.at_f, units);
        Some(match chance.was_on {
            Some(on) => format!("{at} ya se dieron el {}.", self.short_date(on)),
            None => format!(
                "{at} antes de la capa negra: {} de cada cien.",
                hundredths(chance.before_black_layer)
            ),
        })
    }
    fn caution(&self, caution: Caution) -> &'static str {
        match caution {
            Caution::LinesDifferInCold => {
                "Los híbridos difieren mucho en tolerancia al frío. Busque flores vacías dos semanas después de la floración."
            }
            Caution::RainShownNoLossClaimed => {
                "Los híbridos difieren en tolerancia al calor; a la lluvia no se le atribuye pérdida. Mire el cuaje."
            }
            Caution::IrrigationLocalRules => {
                "Deciden el agua del suelo, su dotación y las normas locales."
            }
            Caution::TestWholePlantMoisture => {
                "Mida la humedad de la planta entera antes de cortar (65 a 70 %)."
            }
            Caution::LabelAndLocalRulesFirst => {
                "Primero la etiqueta y las normas locales. Revise pudrición y acame, trate solo lo que se pueda cosechar a tiempo y consulte a un asesor autorizado."
            }
            Caution::LowGroundFreezesFirst => {
                "Los bajos se hielan primero y la estación puede no notarlo."
            }
            Caution::TestAskVetPrussicAcid => {
                "No pastoree ni corte en verde tras una helada; cada helada reinicia la espera. Hágalo analizar; consulte al veterinario y a la oficina de extensión."
            }
            Caution::TestAskVetNitrate => {
                "Hágalo analizar antes de dar; consulte al veterinario y a la oficina de extensión."
            }
        }
    }
    fn more_windows(&self, count: usize) -> String {
        format!("{count} más en la aplicación.")
    }
    fn map_title(&self) -> &'static str {
        "Dónde se leyeron panojas"
    }
    fn unknown_title(&self) -> &'static str {
        "Lo que no se sabe"
    }
    fn vaguest(&self, stage: Stage, band: &Band) -> String {
        let at = match stage {
            Stage::HalfBloom => "en flor".to_owned(),
            _ => format!("en {}", self.stage(stage)),
        };
        format!(
            "Cuántas panojas están {at}: de {} a {} de cada cien.",
            hundredths(band.low),
            hundredths(band.high)
        )
    }
    fn one_head(&self) -> &'static str {
        "Todo esto se apoya en una panoja. Otra, algo apartada, dice mucho más."
    }
    fn few_stops(&self, stops: u32) -> String {
        if stops == 1 {
            "Solo se miró una parada; el resto de la siembra puede ser distinto.".to_owned()
        } else {
            format!("Solo se miraron {stops} paradas; el resto de la siembra puede ser distinto.")
        }
    }
    fn contradicts(&self) -> &'static str {
        "Esta recorrida no encaja con las anteriores; se dejaron fuera."
    }
    fn old_walk(&self, days: i64) -> String {
        format!("La recorrida tiene {days} días; la siembra ha avanzado desde entonces.")
    }
    fn no_places(&self) -> &'static str {
        "Dónde estaban las paradas: no se guardó posición."
    }
    fn weather_until(&self, on: &str) -> String {
        format!("El tiempo después del {on}: los días que vienen se toman de temporadas pasadas.")
    }
    fn no_moisture(&self) -> &'static str {
        "La humedad del grano no se midió aquí; decide un medidor en el campo."
    }
    fn one_field(&self) -> &'static str {
        "Otros lotes: esta hoja habla solo de esta siembra."
    }
    fn who_decides(&self) -> &'static str {
        "Una estimación de panojas leídas a mano, no un consejo. Deciden la etiqueta, las normas locales y asesores autorizados; analice el forraje antes de darlo."
    }
    fn made(&self, on: &str, by: &str) -> String {
        if by.is_empty() {
            format!("Hecha el {on}")
        } else {
            format!("Hecha el {on} por {by}")
        }
    }
    fn month(&self, month: u32) -> &'static str {
        [
            "ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic",
        ][(month.clamp(1, 12) - 1) as usize]
    }
    fn date(&self, on: NaiveDate) -> String {
        format!("{} {}", self.short_date(on), on.year())
    }
    fn short_date(&self, on: NaiveDate) -> String {
        format!("{} {}", on.day(), self.month(on.month()))
    }
}
