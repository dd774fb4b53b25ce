//! Codes of sources and cautions.

use serde::{Deserialize, Serialize};

/// Where a window's numbers come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// Downes & Marshall 1971 (five days of 18/13 C at meiosis) and Brooking 1976
    /// (five nights of 10 C).
    ColdSterility,
    /// Prasad et al. 2015, Front. Plant Sci. 6:820 (mean above 25 C at panicle
    /// emergence) and Singh et al. 2015, Field Crops Res. 171:32-40 (highs above
    /// 36-38 C around flowering). For rain no published number was found.
    BloomHeat,
    /// Common practice: the last irrigation carries the crop from soft dough on.
    LastIrrigationPractice,
    /// Extension advice: silage at soft dough, 65-70 % whole-plant moisture.
    SilageExtension,
    /// Texas extension (black layer, mean grain below 30 %) and GRDC 2014.
    HarvestAidExtension,
    /// Staggenborg & Vanderlip 1996 (loss by stage) and Texas extension (28 F for
    /// two hours, 26 F kills).
    FreezeLoss,
    /// Nebraska extension: 5-7 days; other states up to two weeks.
    PrussicAcidExtension,
    /// Common practice: nitrate is high after drought and after a freeze, and low
    /// on the stem.
    NitratePractice,
}

/// What to keep in mind, and who decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "ts", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Caution {
    /// Lines differ widely in cold tolerance; look for empty florets two weeks
    /// after bloom.
    LinesDifferInCold,
    /// Lines differ in heat tolerance; rain is shown and no loss is claimed.
    RainShownNoLossClaimed,
    /// Soil water, allocation and local rules decide.
    IrrigationLocalRules,
    /// Test the moisture of the whole plant before cutting.
    TestWholePlantMoisture,
    /// The label and local rules decide; check lodging and stalk rot first, treat
    /// only what can be cut in time, keep the pre-harvest interval.
    LabelAndLocalRulesFirst,
    /// Low ground freezes first; the station may not.
    LowGroundFreezesFirst,
    /// Do not graze or green-chop after a freeze; have it tested, ask the vet and
    /// the extension office.
    TestAskVetPrussicAcid,
    /// Have it tested before feeding; ask the vet and the extension office.
    TestAskVetNitrate,
}
