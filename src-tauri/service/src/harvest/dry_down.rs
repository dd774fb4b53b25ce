//! When the grain will be dry enough.

use chrono::NaiveDate;
use ripening::air::EquilibriumSet;
use ripening::dry_down::{MoisturePaths, TARGETS};
use uuid::Uuid;

use super::observed::shown;
use super::pages::DryDownPage;
use super::terms::{HarvestTerm, Terms};
use crate::{Problem, Reply, Service, read_only};
use notebook::fact::Observation;
use notebook::views::harvest;

/// Days looked ahead beyond the day on which the grain is nearly surely dry.
const BEYOND_DRY: usize = 30;
/// Fewest and most days looked ahead.
const LOOKED_AHEAD: (usize, usize) = (45, 150);

/// As many days of the courses as a harvest is weighed over.
pub(super) fn looked_ahead(paths: &MoisturePaths, target: f64) -> MoisturePaths {
    let dry = paths.window(target).window.p90;
    let until = dry.map_or(LOOKED_AHEAD.1, |dry| {
        let days = (dry - paths.as_of()).num_days();
        usize::try_from(days).unwrap_or(0) + BEYOND_DRY
    });
    paths.shortened(until.clamp(LOOKED_AHEAD.0, LOOKED_AHEAD.1))
}

impl Service {
    pub(crate) fn dry_down(
        &mut self,
        id: Uuid,
        as_of: Option<NaiveDate>,
    ) -> Result<Reply<DryDownPage>, Problem> {
        let known = self.known(id, as_of)?;
        let db = self.notebook.db();
        let terms = Terms::read(db, Some(id))?;
        let target = terms.target();
        let mut page = DryDownPage {
            planting: id,
            name: known.planting.name.clone(),
            as_of: known.as_of,
            over: known.over,
            cut_on: known.cut_on,
            now: None,
            why: known.grain.as_ref().err().cloned(),
            fan: Vec::new(),
            windows: Vec::new(),
            target: terms.view(HarvestTerm::TargetMoisture),
            other_constants: None,
            readings: harvest::of_planting(db, id)?
                .into_iter()
                .filter(|row| row.seen.on <= known.as_of)
                .filter(|row| matches!(row.seen.what, Observation::Moisture { .. }))
                .map(shown)
                .collect(),
            seasons: 0,
        };
        if let Ok(grain) = &known.grain {
            page.now = Some(grain.now.now().clone());
            page.fan = looked_ahead(&grain.paths, target).fan();
            let mut targets = TARGETS.to_vec();
            if !targets.contains(&target) {
                targets.push(target);
            }
            targets.sort_by(|a, b| b.total_cmp(a));
            page.windows = targets
                .into_iter()
                .map(|target| grain.paths.window(target))
                .collect();
            page.other_constants = known
                .by(db, EquilibriumSet::SorghumChungPfost2)?
                .map(|other| other.paths.window(target));
            page.seasons = u32::try_from(grain.paths.seasons()).unwrap_or(u32::MAX);
        }
        Ok(read_only(page))
    }
}
