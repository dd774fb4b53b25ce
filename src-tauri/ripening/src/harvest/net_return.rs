//! Net return per acre for each course of moisture and each day ahead.

use super::HarvestError;
use super::plan::{HarvestPlan, Outlet, WET_DAY_MM};
use crate::dry_down::MoisturePaths;
use crate::grain::{Discount, DiscountTable, Factor, POUNDS_PER_BUSHEL, Sample, water_per_point};

/// A night this cold kills the plant: 28 F, degrees C.
const KILLING_C: f64 = -2.222;
/// Hard dough and soft dough lie about so many days before black layer.
const HARD_DOUGH_DAYS: f64 = 15.0;
const SOFT_DOUGH_DAYS: f64 = 30.0;
/// Rain on grain wetter than this does not weather it yet, percent.
const WEATHERS_BELOW: f64 = 28.0;

/// Dollars an acre, one row of days for each course, day 0 being today.
#[derive(Debug, Clone, PartialEq)]
pub struct NetReturns {
    days: usize,
    /// When cutting begins as soon as the grain is fit from that day on, over
    /// the days that cutting takes.
    net: Vec<f64>,
    /// When all is cut on the very day, fit or not.
    on_the_day: Vec<f64>,
    /// Courses in which the grain is fit to cut, by day.
    fit: Vec<usize>,
    /// Bushel-points an acre that the dryer has to take, mean by day.
    dryer_load: Vec<f64>,
    courses: usize,
}

/// What a plan comes to before the courses are looked at.
pub(super) struct Terms<'a> {
    plan: &'a HarvestPlan,
    price: f64,
    /// Dry matter of an untouched acre, hundredweights.
    dry_matter: f64,
    moisture_table: Option<&'a DiscountTable>,
    /// Cents off by the other factors, by number of wet days; refused where absent.
    other_cents: Vec<Option<f64>>,
    fuel_per_point: f64,
    handling: f64,
    dries: bool,
    /// Percent of the weight that comes off for a point above base.
    shrink_per_point: f64,
    dryer_capacity: Option<f64>,
    daily_loss: f64,
    wet_loss: f64,
    frozen_factor: f64,
    loss_below: f64,
}

/// What a hundredweight as cut is paid for.
pub(super) struct Paid {
    /// Weight paid for, per weight as cut.
    pub share: f64,
    /// Dollars for a hundredweight of that weight; absent where it is refused.
    pub price: Option<f64>,
    /// Dollars for a hundredweight as cut that drying, handling and charges take.
    pub charged: f64,
}

/// The money of one acre on one day.
struct Acre {
    dollars: f64,
    taken: bool,
    bushel_points: f64,
}

impl<'a> Terms<'a> {
    pub fn new(plan: &'a HarvestPlan, days: usize) -> Result<Terms<'a>, HarvestError> {
        plan.checked()?;
        let loss = &plan.loss;
        let lodging = 1.0 + loss.lodged.value * (loss.lodged_factor.value - 1.0);
        let per_day = loss.percent_per_day.map_or(0.0, |guess| guess.value);
        let water = water_per_point(plan.base_moisture)?;
        let (dries, shrink_per_point, fuel_per_point, handling, dryer_capacity) =
            match (&plan.outlet, &plan.wet_cost) {
                (Outlet::SoldAsCut { shrunk: false }, _) => (false, 0.0, 0.0, 0.0, None),
                (Outlet::SoldAsCut { shrunk: true }, None) => (false, water, 0.0, 0.0, None),
                (Outlet::SoldAsCut { shrunk: true }, Some(cost)) => (
                    false,
                    cost.shrink_per_point().map_or(water, |own| own.max(water)),
                    cost.per_bushel_point()?,
                    0.0,
                    None,
                ),
                (Outlet::DriedFirst(dryer), _) => (
                    true,
                    water,
                    dryer.fuel_per_point()?,
                    dryer.handling_per_bushel,
                    dryer.bushel_points_per_day,
                ),
            };
        Ok(Terms {
            plan,
            price: plan.price_per_cwt.value,
            dry_matter: plan.yield_cwt_per_acre.value * (100.0 - plan.base_moisture) / 100.0,
            moisture_table: plan.discounts.table(Factor::Moisture),
            other_cents: (0..=days).map(|wet| other_cents(plan, wet)).collect(),
            fuel_per_point,
            handling,
            dries,
            shrink_per_point,
            dryer_capacity,
            daily_loss: per_day / 100.0 * lodging.max(0.0),
            wet_loss: loss.percent_per_wet_day.value / 100.0,
            frozen_factor: loss.after_freeze_factor.value,
            loss_below: loss.below_moisture.value,
        })
    }

    /// Share of its weight that grain keeps when it freezes so many days before
    /// black layer.
    fn kept_after_freeze(&self, days_early: f64) -> f64 {
        let hard = self.plan.freeze.at_hard_dough.value;
        let soft = self.plan.freeze.at_soft_dough.value;
        let percent = if days_early <= HARD_DOUGH_DAYS {
            hard * days_early / HARD_DOUGH_DAYS
        } else {
            let along = (days_early - HARD_DOUGH_DAYS) / (SOFT_DOUGH_DAYS - HARD_DOUGH_DAYS);
            hard + (soft - hard) * along.min(1.0)
        };
        1.0 - percent / 100.0
    }

    /// Pay for grain of a moisture after so many wet days.
    pub fn paid(&self, moisture: f64, wet_days: usize) -> Paid {
        let base = self.plan.base_moisture;
        let over = (moisture - base).max(0.0);
        let sold_at = if self.dries {
            moisture.min(base)
        } else {
            moisture
        };
        let charged = if over > 0.0 {
            (over * self.fuel_per_point + self.handling) * 100.0 / POUNDS_PER_BUSHEL
        } else {
            0.0
        };
        let by_moisture = self
            .moisture_table
            .map_or(Discount::Cents(0.0), |table| table.discount(sold_at));
        let by_rest = self.other_cents.get(wet_days).copied().flatten();
        let price = match (by_moisture, by_rest) {
            (Discount::Cents(moisture), Some(rest)) => {
                Some((self.price - (moisture + rest) / 100.0).max(0.0))
            }
            _ => None,
        };
        Paid {
            share: (1.0 - over * self.shrink_per_point / 100.0).max(0.0),
            price,
            charged,
        }
    }

    /// Money of an acre with a share of its crop standing.
    fn acre(&self, moisture: f64, standing: f64, wet_days: usize) -> Acre {
        let as_cut = self.dry_matter * standing / (1.0 - moisture / 100.0);
        let paid = self.paid(moisture, wet_days);
        let revenue = paid.price.map_or(0.0, |price| as_cut * paid.share * price);
        let over = (moisture - self.plan.base_moisture).max(0.0);
        Acre {
            dollars: revenue - as_cut * paid.charged - self.plan.cutting_cost_per_acre,
            taken: paid.price.is_some(),
            bushel_points: if self.dries {
                as_cut * 100.0 / POUNDS_PER_BUSHEL * over
            } else {
                0.0
            },
        }
    }

    /// Days that cutting takes when it starts with grain of this dryer load.
    fn days_to_cut(&self, bushel_points: f64) -> f64 {
        let combine = self.plan.acres / self.plan.combine_acres_per_day;
        match self.dryer_capacity {
            Some(capacity) => combine.max(self.plan.acres * bushel_points / capacity),
            None => combine,
        }
    }
}

/// Cents off by all factors but moisture after so many wet days.
fn other_cents(plan: &HarvestPlan, wet_days: usize) -> Option<f64> {
    let wet = wet_days as f64;
    let weathering = &plan.weathering;
    let now = &weathering.now;
    let sample = Sample {
        moisture: None,
        total_damage: now
            .total_damage
            .map(|damage| (damage + wet * weathering.damage_per_wet_day.value).min(100.0)),
        test_weight: now
            .test_weight
            .map(|pounds| pounds - wet * weathering.test_weight_per_wet_day.value),
        ..*now
    };
    plan.discounts.discounts(&sample).cents_per_cwt
}

impl NetReturns {
    /// Works out the return of `plan` along every course of `paths`.
    ///
    /// # Errors
    /// [`HarvestError`] when a number of the plan cannot be.
    pub fn new(plan: &HarvestPlan, paths: &MoisturePaths) -> Result<NetReturns, HarvestError> {
        let days = paths.days();
        let courses = paths.scenarios().len();
        let terms = Terms::new(plan, days)?;
        let mut returns = NetReturns {
            days,
            net: vec![0.0; days * courses],
            on_the_day: vec![0.0; days * courses],
            fit: vec![0; days],
            dryer_load: vec![0.0; days],
            courses,
        };
        let mut fit = vec![false; days];
        let mut length = vec![0.0; days];
        let mut summed = vec![0.0; days + 1];
        for (index, scenario) in paths.scenarios().iter().enumerate() {
            let course = paths.course(index);
            let weather = paths.weather(scenario);
            let start = index * days;
            let on_the_day = &mut returns.on_the_day[start..start + days];
            let mut standing = 1.0;
            let mut wet_days = 0;
            let mut frozen = false;
            for (day, &moisture) in course.iter().enumerate() {
                if let Some((before, weather)) = day
                    .checked_sub(1)
                    .and_then(|i| Some((*course.get(i)?, weather.get(i)?)))
                {
                    let wet = weather.rain_mm >= WET_DAY_MM;
                    if !frozen && weather.low_c <= KILLING_C {
                        frozen = true;
                        let early = scenario.black_layer_in.saturating_sub(day);
                        standing *= terms.kept_after_freeze(early as f64);
                    }
                    if before <= terms.loss_below {
                        let faster = if frozen { terms.frozen_factor } else { 1.0 };
                        let storm = if wet { terms.wet_loss } else { 0.0 };
                        standing *= (1.0 - terms.daily_loss * faster - storm).max(0.0);
                    }
                    if wet && before <= WEATHERS_BELOW {
                        wet_days += 1;
                    }
                }
                let acre = terms.acre(moisture, standing, wet_days);
                on_the_day[day] = acre.dollars;
                summed[day + 1] = summed[day] + acre.dollars;
                fit[day] = acre.taken && moisture <= plan.wettest_to_cut;
                length[day] = terms.days_to_cut(acre.bushel_points);
                returns.fit[day] += usize::from(fit[day]);
                returns.dryer_load[day] += acre.bushel_points / courses as f64;
            }
            let net = &mut returns.net[start..start + days];
            for day in (0..days).rev() {
                net[day] = if fit[day] || day + 1 == days {
                    average_from(&summed, day, length[day])
                } else {
                    net[day + 1]
                };
            }
        }
        Ok(returns)
    }

    /// Days, today included.
    pub fn days(&self) -> usize {
        self.days
    }

    /// Courses.
    pub fn courses(&self) -> usize {
        self.courses
    }

    /// Dollars an acre in one course, when cutting begins as soon as the grain
    /// is fit from `day` on.
    pub fn net(&self, course: usize, day: usize) -> f64 {
        self.net[course * self.days + day]
    }

    /// The same for all courses.
    pub fn on(&self, day: usize) -> impl Iterator<Item = f64> + '_ {
        (0..self.courses).map(move |course| self.net(course, day))
    }

    /// Mean over the courses, by day.
    pub fn mean(&self, day: usize) -> f64 {
        self.on(day).sum::<f64>() / self.courses as f64
    }

    /// Mean dollars of an acre that is cut on the very day.
    pub fn mean_on_the_day(&self, day: usize) -> f64 {
        let sum: f64 = (0..self.courses)
            .map(|course| self.on_the_day[course * self.days + day])
            .sum();
        sum / self.courses as f64
    }

    /// Probability that the grain is fit to cut on a day.
    pub fn fit(&self, day: usize) -> f64 {
        self.fit[day] as f64 / self.courses as f64
    }

    /// Mean bushel-points of an acre that the dryer has to take on a day.
    pub fn dryer_load(&self, day: usize) -> f64 {
        self.dryer_load[day]
    }
}

/// Mean of the days from `day` on, over `length` days (the last in part), as
/// far as the days ahead go. `summed[d]` is the sum of the days before `d`.
fn average_from(summed: &[f64], day: usize, length: f64) -> f64 {
    let last = summed.len() - 1;
    if length <= 1.0 {
        return summed[day + 1] - summed[day];
    }
    let end = (day as f64 + length).min(last as f64);
    let whole = end as usize;
    let part = if whole < last {
        (end - whole as f64) * (summed[whole + 1] - summed[whole])
    } else {
        0.0
    };
    (summed[whole] - summed[day] + part) / (end - day as f64)
}
