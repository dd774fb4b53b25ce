//! The way between a phone and the hub, which loses, repeats, cuts, holds back
//! and spoils what it carries.

use crate::hub_there::HubThere;
use exchange::Trouble;
use exchange::meet::Way;
use rand::RngExt as _;
use rand_chacha::ChaCha8Rng;
use std::collections::BTreeSet;
use wire::code::Token;
use wire::{Answer, Ask, SealedPage, Tag, frame};

/// A question that was sent once and may arrive again, much later.
pub struct Late {
    pub token: Token,
    pub bytes: Vec<u8>,
}

/// How bad the way is, as chances for one question in a thousand.
#[derive(Debug, Clone, Copy)]
pub struct Weather {
    pub lost: u32,
    pub answer_lost: u32,
    pub twice: u32,
    pub held_back: u32,
    pub cut: u32,
    pub spoiled: u32,
    pub hub_dies: u32,
    pub hub_set_back: u32,
    /// What is given to the hub hangs in the air, to arrive later or never.
    pub pushes_hang: bool,
}

impl Weather {
    pub const FINE: Self = Self {
        lost: 0,
        answer_lost: 0,
        twice: 0,
        held_back: 0,
        cut: 0,
        spoiled: 0,
        hub_dies: 0,
        hub_set_back: 0,
        pushes_hang: false,
    };

    pub fn draw(rng: &mut ChaCha8Rng) -> Self {
        let mut up_to = |most: u32| rng.random_range(0..=most);
        Self {
            lost: up_to(150),
            answer_lost: up_to(150),
            twice: up_to(150),
            held_back: up_to(200),
            cut: up_to(80),
            spoiled: up_to(80),
            hub_dies: up_to(60),
            hub_set_back: 0,
            pushes_hang: false,
        }
    }
}

/// One phone's way to the hub for one exchange.
pub struct BadWay<'a> {
    pub hub: &'a mut HubThere,
    pub rng: &'a mut ChaCha8Rng,
    pub weather: Weather,
    pub token: Token,
    pub late: &'a mut Vec<Late>,
    /// Tags of the changes that the hub said are stored.
    pub acknowledged: &'a mut BTreeSet<Tag>,
    pub asks: usize,
}

/// No exchange of these crews takes more questions, whatever the hub and the others say.
const MOST_ASKS: usize = 1_000;

impl BadWay<'_> {
    fn happens(&mut self, chance: u32) -> bool {
        self.rng.random_range(0..1_000) < chance
    }
}

impl Way for BadWay<'_> {
    fn ask(&mut self, ask: &Ask) -> Result<Answer, Trouble> {
        let gone = || Trouble::NoSignal("out of range".to_owned());
        self.asks += 1;
        assert!(self.asks <= MOST_ASKS, "questions without an end");
        let mut bytes = frame::encode(ask).map_err(|_| Trouble::Nonsense)?;
        if self.happens(self.weather.hub_set_back) {
            self.hub.set_back();
        }
        if self.happens(self.weather.held_back) {
            self.late.push(Late {
                token: self.token.clone(),
                bytes: bytes.clone(),
            });
        }
        if self.weather.pushes_hang && matches!(ask, Ask::PushSealed(_)) {
            self.late.push(Late {
                token: self.token.clone(),
                bytes,
            });
            return Err(gone());
        }
        if self.happens(self.weather.lost) {
            return Err(gone());
        }
        if self.happens(self.weather.spoiled) {
            let place = self.rng.random_range(0..bytes.len());
            bytes[place] ^= 1 << self.rng.random_range(0..8);
        }
        if self.happens(self.weather.twice) {
            let _ = self.hub.hear(&self.token, &bytes);
        }
        let answer = self.hub.hear(&self.token, &bytes);
        if self.happens(self.weather.hub_dies) {
            self.hub.die();
        }
        if self.happens(self.weather.answer_lost) {
            return Err(gone());
        }
        let Some(mut answer) = answer else {
            return Err(Trouble::NotLetIn);
        };
        if self.happens(self.weather.cut) {
            let length = self.rng.random_range(0..answer.len());
            answer.truncate(length);
        }
        let answer: Answer = frame::decode(&answer).map_err(|_| Trouble::Cut)?;
        if let (Ask::PushSealed(page), Answer::Pushed(_)) = (ask, &answer) {
            self.acknowledged.extend(tags(page));
        }
        Ok(answer)
    }
}

fn tags(page: &SealedPage) -> impl Iterator<Item = Tag> {
    page.iter()
        .flat_map(|sealed| sealed.run.bodies.iter())
        .map(|body| Tag::of(body))
}
