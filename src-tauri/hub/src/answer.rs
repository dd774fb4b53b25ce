//! What a hub answers, whatever the way the question came.

use crate::photos::Photos;
use crate::store::{Joining, Member, NewInvitation, PhotoState, Store, StoreFault, Stored};
use std::sync::Arc;
use uuid::Uuid;
use wire::code;
use wire::seal::PublicKey;
use wire::{
    Answer, Ask, Bounded, Invited, Mark, NAME_CHARS, Refusal, Role, Roster, page_fits,
    sealed_page_fits,
};

/// Longest life of an invitation: a week.
const MOST_MINUTES: u32 = 7 * 24 * 60;
/// Life of the code that founds a crew.
const FOUNDING_MINUTES: i64 = 24 * 60;
const MINUTE_MS: i64 = 60_000;

/// Tells the hub the time, milliseconds since 1970.
pub type Clock = Arc<dyn Fn() -> i64 + Send + Sync>;

/// The clock of this machine.
#[must_use]
pub fn machine_clock() -> Clock {
    Arc::new(|| {
        std::time::SystemTime::now()
            .duration_since(std::time::UNIX_EPOCH)
            .map_or(0, |since| {
                i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
            })
    })
}

/// A hub: a store, a photo store and a clock. It keeps nothing itself.
#[derive(Clone)]
pub struct Hub {
    /// Where everything but photos is kept.
    pub store: Arc<dyn Store>,
    /// Where photos are kept.
    pub photos: Photos,
    clock: Clock,
}

/// How a question ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// For a member, or for somebody who has just become one.
    Answer(Answer),
    /// The asker is nobody; what they hear must not depend on what they asked.
    Stranger,
}

impl Hub {
    /// A hub on these stores.
    #[must_use]
    pub fn new(store: Arc<dyn Store>, photos: Photos, clock: Clock) -> Self {
        Self {
            store,
            photos,
            clock,
        }
    }

    /// Now, milliseconds since 1970.
    #[must_use]
    pub fn now(&self) -> i64 {
        (self.clock)()
    }

    /// A code that founds a crew, used once and within a day. Earlier unused ones end.
    ///
    /// # Errors
    /// When the store fails or there is no randomness.
    pub async fn founding_code(&self) -> Stored<String> {
        let (code, code_hash) = fresh_code()?;
        let now = self.now();
        self.store.drop_founding_invitations().await?;
        self.store
            .invite(NewInvitation {
                id: code::new_id(now)?,
                crew: None,
                person: None,
                role: Role::Owner,
                code_hash,
                made_at: now,
                ends_at: now.saturating_add(FOUNDING_MINUTES * MINUTE_MS),
            })
            .await?;
        Ok(code)
    }

    /// The member who shows this token. A removed one is found too: it may hear
    /// that it was removed, and nothing else.
    ///
    /// # Errors
    /// When the store fails.
    pub async fn member(&self, token: &code::Token) -> Stored<Option<Member>> {
        let found = self.store.member(token.device).await?;
        let shown = code::hash(&token.secret);
        // An unknown membership takes the same comparison.
        let kept = found
            .as_ref()
            .map_or(&[0_u8; 32][..], |member| &member.token_hash);
        let same = code::same(kept, &shown);
        Ok(found.filter(|_| same))
    }

    /// Answers a question.
    pub async fn answer(&self, member: Option<&Member>, ask: Ask) -> Outcome {
        let result = match (member, ask) {
            (
                None,
                Ask::Join {
                    code,
                    token_hash,
                    person,
                    device,
                    crew,
                },
            ) => {
                return match self.join(&code, token_hash, person, device, crew).await {
                    Ok(answer) => Outcome::Answer(answer),
                    Err(StoreFault::Refused(_)) => Outcome::Stranger,
                    Err(StoreFault::Failed(why)) => {
                        tracing::error!(why, "the store failed");
                        Outcome::Stranger
                    }
                };
            }
            (None, _) => return Outcome::Stranger,
            (Some(member), _) if member.removed => Err(Refusal::Removed.into()),
            (Some(member), ask) => self.answer_member(member, ask).await,
        };
        Outcome::Answer(result.unwrap_or_else(|fault| Answer::Refused(refusal(fault))))
    }

    /// Whether a stranger's question shows a code that an invitation has, used or not.
    pub async fn knows_code_of(&self, ask: &Ask) -> bool {
        let Ask::Join { code, .. } = ask else {
            return false;
        };
        let Some(code) = code::read_code(code) else {
            return false;
        };
        let known = self.store.knows_code(code::hash(code.as_bytes())).await;
        known.unwrap_or_else(|why| {
            tracing::error!(%why, "the store failed");
            false
        })
    }

    async fn join(
        &self,
        typed: &str,
        token_hash: [u8; 32],
        person: String,
        device: String,
        crew: String,
    ) -> Stored<Answer> {
        let code = code::read_code(typed).ok_or(Refusal::Unknown)?;
        let now = self.now();
        let joined = self
            .store
            .join(Joining {
                code_hash: code::hash(code.as_bytes()),
                token_hash,
                crew: (code::new_id(now)?, name(&crew)?),
                person: (code::new_id(now)?, name(&person)?),
                device: (code::new_id(now)?, name(&device)?),
                now,
            })
            .await?;
        Ok(Answer::Joined(joined))
    }

    async fn answer_member(&self, member: &Member, ask: Ask) -> Stored<Answer> {
        match ask {
            // A member's phone has no use for another invitation.
            Ask::Join { .. } => Err(Refusal::NotAllowed.into()),
            Ask::Heads { mine } => {
                self.store.seen(member.device, self.now()).await?;
                Ok(Answer::Heads {
                    forked: self.store.forked(member.crew, mine.into_vec()).await?,
                    heads: self.store.heads(member.crew).await?,
                    role: member.role,
                })
            }
            Ask::Push(page) => {
                if !page_fits(&page) {
                    return Err(Refusal::OutOfBounds.into());
                }
                let heads = self.store.append(member.device, page, self.now()).await?;
                Ok(Answer::Pushed(heads))
            }
            Ask::Pull { spans } => Ok(Answer::Pulled(
                self.store.read(member.crew, spans.into_vec()).await?,
            )),
            Ask::Tags(span) => Ok(Answer::Tags(
                self.store.tags(member.crew, span).await?.into(),
            )),
            Ask::Crew => {
                let mut crew = self.store.crew(member.crew, self.now()).await?;
                if member.role != Role::Owner {
                    crew.invitations.clear();
                }
                Ok(Answer::Crew(crew))
            }
            Ask::Invite {
                person,
                role,
                minutes,
            } => self.invite(member, person, role, minutes).await,
            Ask::Withdraw { invitation } => {
                owner(member)?;
                self.store.withdraw(member.crew, invitation).await?;
                Ok(Answer::Done)
            }
            Ask::RemoveDevice { device } => {
                if device != member.device {
                    owner(member)?;
                }
                self.store
                    .remove_device(member.crew, device, self.now())
                    .await?;
                Ok(Answer::Done)
            }
            Ask::SetRole { person, role } => {
                owner(member)?;
                self.store.set_role(member.crew, person, role).await?;
                Ok(Answer::Done)
            }
            Ask::PhotosMissing { names } => {
                let names = names.into_vec();
                let states = self
                    .photos
                    .states(&*self.store, member.crew, names.clone())
                    .await?;
                Ok(Answer::PhotosMissing(missing(&names, &states)))
            }
            Ask::Greet { mine, key, own } => self.greet(member, mine.into_vec(), key, own).await,
            Ask::PushSealed(page) => {
                if !sealed_page_fits(&page) {
                    return Err(Refusal::OutOfBounds.into());
                }
                let now = self.now();
                let heads = self.store.append_sealed(member.device, page, now).await?;
                Ok(Answer::Pushed(heads))
            }
            Ask::PullSealed { spans } => {
                let spans = spans.into_vec();
                let page = self.store.read_sealed(member.crew, spans).await?;
                Ok(Answer::PulledSealed(page))
            }
            Ask::Seal { series, seals } => {
                let seals = seals.into_vec();
                self.store.seal(member.device, series, seals).await?;
                Ok(Answer::Done)
            }
        }
    }

    async fn greet(
        &self,
        member: &Member,
        mine: Vec<(Uuid, Mark)>,
        key: Option<PublicKey>,
        own: Uuid,
    ) -> Stored<Answer> {
        self.store.seen(member.device, self.now()).await?;
        if let Some(key) = key.filter(|key| member.key != Some(*key)) {
            if member.key.is_some() {
                return Err(Refusal::OtherKey.into());
            }
            self.store.introduce(member.device, key, own).await?;
        }
        let heads = self.store.heads(member.crew).await?;
        let writers = self.store.writers(member.crew).await?;
        Ok(Answer::Greeted {
            forked: self.store.forked(member.crew, mine).await?,
            roster: Roster::new(&heads, &writers),
            heads,
            role: member.role,
        })
    }

    async fn invite(
        &self,
        member: &Member,
        person: Option<Uuid>,
        role: Role,
        minutes: u32,
    ) -> Stored<Answer> {
        owner(member)?;
        if !(1..=MOST_MINUTES).contains(&minutes) {
            return Err(Refusal::OutOfBounds.into());
        }
        let (code, code_hash) = fresh_code()?;
        let now = self.now();
        let id = code::new_id(now)?;
        let ends_at = now.saturating_add(i64::from(minutes) * MINUTE_MS);
        self.store
            .invite(NewInvitation {
                id,
                crew: Some(member.crew),
                person,
                role,
                code_hash,
                made_at: now,
                ends_at,
            })
            .await?;
        Ok(Answer::Invited(Invited {
            invitation: id,
            code,
            ends_at,
        }))
    }
}

fn fresh_code() -> Stored<(String, [u8; 32])> {
    let code = code::new_code().map_err(|error| StoreFault::Failed(error.to_string()))?;
    let hash = code::hash(code.as_bytes());
    Ok((code, hash))
}

fn owner(member: &Member) -> Result<(), Refusal> {
    if member.role == Role::Owner {
        Ok(())
    } else {
        Err(Refusal::NotAllowed)
    }
}

/// A name as it may be kept: one line, neither empty nor long.
fn name(given: &str) -> Result<String, Refusal> {
    let given = given.trim();
    let fits = !given.is_empty()
        && given.chars().count() <= NAME_CHARS
        && !given.chars().any(char::is_control);
    if fits {
        Ok(given.to_owned())
    } else {
        Err(Refusal::OutOfBounds)
    }
}

fn missing(
    names: &[[u8; 32]],
    states: &[Option<PhotoState>],
) -> Bounded<([u8; 32], u64), { wire::PHOTO_NAMES }> {
    names
        .iter()
        .zip(states)
        .filter_map(|(name, state)| match state {
            Some(state) if state.whole => None,
            Some(state) => Some((*name, state.have)),
            None => Some((*name, 0)),
        })
        .collect()
}

/// What a member hears of a fault.
#[must_use]
pub fn refusal(fault: StoreFault) -> Refusal {
    match fault {
        StoreFault::Refused(refusal) => refusal,
        StoreFault::Failed(why) => {
            tracing::error!(why, "the store failed");
            Refusal::Fault
        }
    }
}
