//! How the objects of the format are declared, once: a declaration makes the type, its reader, its schema and its rows in
//! `docs/table.md`.

/// Declares objects of the format.
///
/// ```text
/// entry! {
///     /// A pump.
///     pub struct Pump {
///         /// Unique among the carrier's pumps.
///         id: Id,
///         /// Load-sensing margin.
///         margin: Option<Stated<Pressure>> as MARGIN => "service manual; two gauges",
///     }
///     then |object| { contradictions::of_pump(object, displacement.flatten(), greatest_flow.flatten()); }
/// }
/// ```
///
/// The doc comments are the descriptions in the schema and in the docs. The type says whether a field may be left out: an `Option`, a
/// list, and an object declared `: Default` may. Behind `as` stands the [rule](crate::rule::Rule) by which its value is read, a name in
/// `bounds.rs` or `rule.rs`; behind `=>` where a person finds it.
///
/// `first` runs before the fields are read and `then` after all of them, also where one that must be there is missing. There each field
/// is an `Option`, none when what stands there is of no use: so every problem is noted at once.
macro_rules! entry {
    (@rule) => { $crate::rule::Rule::None };
    (@rule $rule:ident) => { $crate::rule::$rule.rule() };
    (@key id $($field:ident)*) => {
        fn key(&self) -> Option<&$crate::Id> {
            Some(&self.id)
        }
    };
    (@key $($field:ident)+) => {};
    ($(
        $(#[doc = $about:literal])+
        pub struct $Entry:ident $(: $Default:ident)? {
            $(
                $(#[doc = $what:literal])+
                $(#[cfg_attr($($attribute:tt)*)])?
                $field:ident: $Type:ty $(as $rule:ident)? $(=> $found:literal)?,
            )+
        }
        $(first |$before:ident| $first:block)?
        $(then |$after:ident| $then:block)?
    )+) => {$(
        $(#[doc = $about])+
        #[derive(Clone, Debug, PartialEq, serde::Serialize)]
        $(#[derive($Default)])?
        #[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
        pub struct $Entry {
            $(
                $(#[doc = $what])+
                $(#[cfg_attr($($attribute)*)])?
                pub $field: $Type,
            )+
        }

        impl $crate::read::Entry for $Entry {
            fn of_object(object: &$crate::read::Object) -> Option<Self> {
                $(let $before = object; $first)?
                $(
                    let $field = <$Type as $crate::read::Value>::read(object, const {
                        &$crate::read::Field::new::<$Type>(stringify!($field), $crate::read::entry!(@rule $($rule)?))
                    });
                )+
                $(let $after = object; $then)?
                Some(Self { $($field: $field?,)+ })
            }

            fn rows() -> Vec<$crate::row::Row> {
                vec![$(
                    $crate::row::Row {
                        name: stringify!($field),
                        must_be_there: $crate::read::must_be_there::<$Type>($crate::read::entry!(@rule $($rule)?)),
                        what: concat!($($what),+),
                        found: concat!($($found)?),
                        kind: <$Type as $crate::read::Value>::kind($crate::read::entry!(@rule $($rule)?)),
                    },
                )+]
            }
        }

        impl $crate::read::Value for $Entry {
            $(const WHEN_LEFT_OUT: Option<fn() -> Self> = Some(<Self as $Default>::default);)?

            fn of(node: $crate::read::Node, _: &$crate::read::Field) -> Option<Self> {
                $crate::read::read_whole(node, <Self as $crate::read::Entry>::of_object)
            }

            $crate::read::entry! { @key $($field)+ }

            fn kind(_: $crate::rule::Rule) -> $crate::row::Kind {
                $crate::row::Kind::object(stringify!($Entry), <Self as $crate::read::Entry>::rows)
            }
        }
    )+};
}

pub(crate) use entry;
