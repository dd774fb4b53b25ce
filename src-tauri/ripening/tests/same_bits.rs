//! The same input gives the same bits, however the crate was compiled.
//!
//! `same_bits.txt` holds a fingerprint for each of forty walks. The test passes at
//! opt-level 3 (the `dev` profile of this workspace), at 0 (`--cargo-profile
//! unoptimized`) and in a release build, or the answers of two phones differ. After
//! a deliberate change of the model the test prints the lines to put there.

#![allow(clippy::expect_used)] // in what the test calls

use ripening::rollup::{HeatMoved, Prior, RollUp, Target, WalkingCost};
use ripening::{Band, Head, PerStage, Reading, Share, WholeField};

/// A plain mixing of whole numbers (SplitMix64): enough to make up heads.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, limit: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (mixed ^ (mixed >> 31)) % limit
    }
}

/// Heads around one reading, with a stray now and then.
fn heads(numbers: &mut Numbers, middle: u64, count: u64) -> Vec<Head> {
    (0..count)
        .map(|_| {
            let reading = Reading::ALL[(middle + numbers.below(3)).clamp(1, 7) as usize - 1];
            let percent = 1 + numbers.below(100) as u8;
            let share = (reading != Reading::Boot).then(|| Share::new(percent).expect("1 to 100"));
            Head::new(reading, share).expect("a sound head")
        })
        .collect()
}

/// FNV-1a over the bits of every number of an answer.
struct Fingerprint(u64);

impl Fingerprint {
    fn add(&mut self, bits: u64) {
        for byte in bits.to_le_bytes() {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0100_0000_01B3);
        }
    }

    fn band(&mut self, band: &Band) {
        for end in [band.low, band.mid, band.high] {
            self.add(end.to_bits());
        }
    }

    fn answer(&mut self, answer: &WholeField) {
        self.add(answer.stage as u64);
        self.band(&answer.position);
        let shares = |of: &PerStage<Band>| {
            [
                of.boot,
                of.heading,
                of.half_bloom,
                of.milk,
                of.soft_dough,
                of.hard_dough,
                of.black_layer,
            ]
        };
        for band in shares(&answer.reached).iter().chain(&shares(&answer.grain)) {
            self.band(band);
        }
        let chance = &answer.chance;
        for chance in [
            chance.boot,
            chance.heading,
            chance.half_bloom,
            chance.milk,
            chance.soft_dough,
            chance.hard_dough,
            chance.black_layer,
        ] {
            self.add(chance.to_bits());
        }
    }
}

fn fingerprint(walk: u64) -> String {
    let mut numbers = Numbers(walk);
    let mut roll_up = RollUp::new(Prior::fresh());
    let middle = walk % 7;
    for key in 0..1 + numbers.below(8) {
        let count = numbers.below(8);
        roll_up.set_stop(key, &heads(&mut numbers, middle, count));
    }
    let mut print = Fingerprint(0xCBF2_9CE4_8422_2325);
    print.answer(&roll_up.whole_field(0.9));
    let advice = roll_up.advice(&Target::default(), &WalkingCost::default());
    print.add(advice.position_width.to_bits());
    print.add(advice.stage_chance.to_bits());
    for more in &advice.more {
        print.add(more.position_width.to_bits());
        print.add(more.stage_chance.to_bits());
    }
    let history = roll_up.posterior().forward(HeatMoved {
        mean: 210.0,
        sd: 17.0,
    });
    let mut next = RollUp::new(history);
    for key in 0..3 {
        next.set_stop(key, &heads(&mut numbers, middle + 1, 5));
    }
    print.answer(&next.whole_field(0.8));
    format!("{walk:2} {:016x}", print.0)
}

#[test]
fn answers_have_the_bits_on_record() {
    let found: Vec<String> = (0..40).map(fingerprint).collect();
    let known: Vec<&str> = include_str!("same_bits.txt").lines().collect();
    assert!(
        found == known,
        "other bits than on record; if the model was changed on purpose, \
         these belong into same_bits.txt:\n{}",
        found.join("\n")
    );
}
