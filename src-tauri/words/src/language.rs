use unic_langid::{LanguageIdentifier, langid};

/// Language in which people are addressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Language {
    /// English as written in the United States, the source of the catalogue.
    English,
    /// Spanish as read in Mexico and Argentina.
    Spanish,
}

impl Language {
    /// Every language, the source first.
    pub const ALL: [Self; 2] = [Self::English, Self::Spanish];

    /// Name of the language's folder in the catalogue, its two-letter tag.
    #[must_use]
    pub const fn folder(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }

    /// Language for a tag such as `es-US`; English where it is none of ours.
    #[must_use]
    pub fn of_tag(tag: &str) -> Self {
        let main = tag.split(['-', '_']).next().unwrap_or_default();
        if main.eq_ignore_ascii_case("es") {
            Self::Spanish
        } else {
            Self::English
        }
    }

    /// Locale for plurals, the same as the screens'.
    pub(crate) const fn locale(self) -> LanguageIdentifier {
        match self {
            Self::English => langid!("en-US"),
            Self::Spanish => langid!("es-US"),
        }
    }
}
