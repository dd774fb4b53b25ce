//! Sets of names that are stored and sent, and may come from a newer version.

/// Declares such a set: an enum with a variant for each name, and one for what a newer
/// version wrote.
macro_rules! names {
    ($(#[$about:meta])* $Set:ident {
        $($(#[$of:meta])* $Name:ident = $name:literal,)*
    }) => {
        $(#[$about])*
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
        )]
        #[cfg_attr(feature = "ts", derive(ts_rs::TS))]
        pub enum $Set {
            $($(#[$of])* #[serde(rename = $name)] $Name,)*
            /// One that a newer version wrote. This version never writes it.
            #[serde(rename = "newer", other)]
            Newer,
        }

        impl $Set {
            /// All that this version writes.
            pub const ALL: &[$Set] = &[$($Set::$Name),*];

            /// The name as stored and sent.
            pub const fn name(self) -> &'static str {
                match self {
                    $($Set::$Name => $name,)*
                    $Set::Newer => "newer",
                }
            }

            /// The one of a name.
            pub fn of(name: &str) -> $Set {
                match name {
                    $($name => $Set::$Name,)*
                    _ => $Set::Newer,
                }
            }
        }
    };
}

pub(crate) use names;

#[cfg(test)]
mod tests {
    use crate::{Act, Field};

    #[test]
    fn names_come_back_and_those_of_a_newer_version_are_told_apart() {
        for act in Act::ALL {
            assert_eq!(Act::of(act.name()), *act);
            assert_eq!(serde_json::to_value(act).unwrap(), act.name());
        }
        for field in Field::ALL {
            assert_eq!(Field::of(field.name()), *field);
        }
        assert_eq!(Act::of("soil_probed"), Act::Newer);
        let read: Act = serde_json::from_str("\"soil_probed\"").unwrap();
        assert_eq!(read, Act::Newer);
    }
}
