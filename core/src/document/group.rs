//! The macro that declares a group of inputs: its fields, their defaults and their table rows.

/// Declares a document struct with `choices` (anything serde can store) and `numbers` (rows of
/// the table). A number's line reads: field, key in the file, type, default, dimension,
/// permitted range, likely range, tag, label, source, and when it is used.
macro_rules! group {
    (
        $(#[$meta:meta])*
        pub struct $name:ident, $prefix:literal {
            choices {
                $( $(#[$choice_meta:meta])* $choice:ident : $choice_type:ty = $choice_default:expr; )*
            }
            numbers {
                $(
                    $(#[$number_meta:meta])*
                    $number:ident, $key:literal : $number_type:ty = $default:expr, $dimension:ident,
                    in $least:expr, $most:expr, likely $likely:expr, $tag:ident,
                    $label:literal, $source:literal, if $used:expr;
                )*
            }
        }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
        #[serde(default, deny_unknown_fields)]
        pub struct $name {
            $( $(#[$choice_meta])* pub $choice: $choice_type, )*
            $( $(#[$number_meta])* #[serde(rename = $key)] pub $number: $number_type, )*
        }

        impl Default for $name {
            fn default() -> Self {
                Self {
                    $( $choice: $choice_default, )*
                    $( $number: <$number_type as $crate::document::row::Stored>::stored($default), )*
                }
            }
        }

        impl $name {
            /// This group's rows of the table of inputs.
            pub const ROWS: &'static [$crate::document::row::Row<Self>] = &[
                $(
                    $crate::document::row::Row {
                        id: concat!($prefix, ".", $key),
                        label: $label,
                        dimension: $crate::units::typed::Dimension::$dimension,
                        default: $default,
                        permitted: ($least, $most),
                        likely: $likely,
                        tag: $crate::document::row::Tag::$tag,
                        source: $source,
                        get: |group| $crate::document::row::Stored::si(&group.$number),
                        set: |group, value| {
                            group.$number = $crate::document::row::Stored::stored(value);
                        },
                        used: $used,
                    },
                )*
            ];
        }
    };
}

pub(crate) use group;
