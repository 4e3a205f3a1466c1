//! Closed lists of names: an enum whose every value has one written form.

/// A value of a closed list that is written as a fixed lower-case name in tables, links and results.
pub trait Named: Copy + PartialEq + 'static {
    /// What the list is called in a message, for example `carrier class`.
    const WHAT: &'static str;
    /// Every value, in the order in which people should see them.
    const ALL: &'static [Self];
    /// The written name of each, in the same order.
    const NAMES: &'static [&'static str];
    /// The written name.
    fn name(self) -> &'static str;
    /// The value with this exact name.
    fn from_name(name: &str) -> Option<Self> {
        Self::ALL.get(Self::NAMES.iter().position(|known| *known == name)?).copied()
    }
}

/// Reads a value by its exact name.
///
/// # Errors
/// When it is no text, or no name of the list.
#[doc(hidden)]
pub fn named_of<'de, T: Named, D: serde::Deserializer<'de>>(deserializer: D) -> Result<T, D::Error> {
    let name = <String as serde::Deserialize>::deserialize(deserializer)?;
    T::from_name(&name).ok_or_else(|| serde::de::Error::custom(format_args!("“{name}” is no {}", T::WHAT)))
}

/// Declares an enum with its written names; the name is what serde writes and reads too.
#[macro_export]
macro_rules! string_enum {
    ($(#[$meta:meta])* $what:literal $vis:vis enum $Type:ident { $($(#[$vmeta:meta])* $Variant:ident = $name:literal,)+ }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        $vis enum $Type { $($(#[$vmeta])* $Variant,)+ }

        impl $crate::Named for $Type {
            const WHAT: &'static str = $what;
            const ALL: &'static [Self] = &[$(Self::$Variant,)+];
            const NAMES: &'static [&'static str] = &[$($name,)+];
            fn name(self) -> &'static str {
                Self::NAMES[self as usize]
            }
        }

        impl $crate::serde::Serialize for $Type {
            fn serialize<S: $crate::serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str($crate::Named::name(*self))
            }
        }

        impl<'de> $crate::serde::Deserialize<'de> for $Type {
            fn deserialize<D: $crate::serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                $crate::named_of(deserializer)
            }
        }

        #[cfg(not(target_arch = "wasm32"))]
        impl $crate::schemars::JsonSchema for $Type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($Type).into()
            }
            fn json_schema(_: &mut $crate::schemars::SchemaGenerator) -> $crate::schemars::Schema {
                $crate::schemars::json_schema!({ "type": "string", "enum": <Self as $crate::Named>::NAMES })
            }
        }
    };
}
