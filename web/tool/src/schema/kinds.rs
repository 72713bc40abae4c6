//! From traced types to the schema's definitions.

use crate::schema::SchemaError;
use crate::schema::trials;
use coolpath_core::document::alternative::MAX_ALTERNATIVES;
use coolpath_core::document::design::{Design, MAX_CONDITIONS, MAX_OUTLINE, VERSION};
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{MAX_MOMENTS, MAX_READINGS};
use coolpath_core::document::table;
use coolpath_core::document::table::Input;
use coolpath_core::path::openings::MAX_OPENINGS;
use coolpath_core::units::typed::Dimension;
use serde_json::{Map, Value, json};
use serde_reflection::{ContainerFormat, Format, Named, Registry};

/// Fewest and most entries of the lists that have bounds, by type and field.
const LISTS: [(&str, usize, usize); 7] = [
    ("Design.conditions", 1, MAX_CONDITIONS),
    ("Design.alternatives", 0, MAX_ALTERNATIVES),
    ("Design.readings", 0, MAX_READINGS),
    ("Reading.moments", 0, MAX_MOMENTS),
    ("Installation.inlets", 1, MAX_OPENINGS),
    ("Installation.exits", 1, MAX_OPENINGS),
    ("Inlet.outline", 0, MAX_OUTLINE),
];

/// The types of a design file, and the definitions made of them so far.
pub(crate) struct Kinds<'a> {
    registry: &'a Registry,
    sample: Value,
    default: Value,
    /// Definitions by the types' names.
    pub(crate) definitions: Map<String, Value>,
}

impl<'a> Kinds<'a> {
    pub(crate) fn new(registry: &'a Registry) -> Result<Self, SchemaError> {
        Ok(Self {
            registry,
            sample: serde_json::to_value(trials::sample())?,
            default: serde_json::to_value(Design::default())?,
            definitions: Map::new(),
        })
    }

    /// The schema of a named type.
    ///
    /// # Arguments
    /// * `at` - JSON pointer to one of it in the sample
    pub(crate) fn named(&mut self, name: &str, at: &str) -> Result<Value, SchemaError> {
        let unknown = || SchemaError::Shape(name.to_owned());
        match self.registry.get(name).ok_or_else(unknown)? {
            ContainerFormat::Struct(fields) => self.object(name, fields, at),
            ContainerFormat::NewTypeStruct(inner) => self.format(inner, at),
            ContainerFormat::Enum(variants) => {
                let names = variants.values().map(|variant| variant.name.as_str());
                Ok(json!({ "type": "string", "enum": names.collect::<Vec<_>>() }))
            }
            _ => Err(unknown()),
        }
    }

    fn object(
        &mut self,
        name: &str,
        fields: &[Named<Format>],
        at: &str,
    ) -> Result<Value, SchemaError> {
        let mut properties = Map::new();
        let mut required = Vec::new();
        for field in fields {
            let property = self.field(name, field, at)?;
            properties.insert(field.name.clone(), property);
            if trials::is_required(&self.sample, at, &field.name) {
                required.push(field.name.as_str());
            }
        }
        let mut object = json!({
            "type": "object",
            "properties": properties,
            "additionalProperties": false,
        });
        if !required.is_empty() {
            object["required"] = json!(required);
        }
        Ok(object)
    }

    fn field(&mut self, name: &str, field: &Named<Format>, at: &str) -> Result<Value, SchemaError> {
        let here = format!("{at}/{}", field.name);
        let id = format!("{}.{}", name.to_lowercase(), field.name);
        if let Some(input) = table::by_id(&id) {
            return Ok(number(input));
        }
        if let Format::Map { .. } = field.value {
            return Ok(quantities(name == "Moment"));
        }
        let mut property = self.format(&field.value, &here)?;
        let list = format!("{name}.{}", field.name);
        if let Some((_, least, most)) = LISTS.iter().find(|(known, ..)| *known == list) {
            property["minItems"] = json!(least);
            property["maxItems"] = json!(most);
        }
        if let Some((least, most)) = trials::count_range(&self.sample, &here, &id) {
            property["minimum"] = json!(least);
            property["maximum"] = json!(most);
        }
        if list == "Design.coolpath_design" {
            property["minimum"] = json!(1);
            property["maximum"] = json!(VERSION);
        } else if let Some(usual) = self.default.pointer(&here).filter(|usual| is_plain(usual)) {
            property["default"] = usual.clone();
        }
        Ok(property)
    }

    fn format(&mut self, format: &Format, at: &str) -> Result<Value, SchemaError> {
        Ok(match format {
            Format::Bool => json!({ "type": "boolean" }),
            Format::Str => json!({ "type": "string" }),
            Format::F64 => json!({ "type": "number" }),
            Format::U8 => json!({ "type": "integer", "minimum": 0, "maximum": u8::MAX }),
            Format::U16 | Format::U32 | Format::U64 => json!({ "type": "integer", "minimum": 0 }),
            Format::Option(inner) => {
                json!({ "anyOf": [self.format(inner, at)?, { "type": "null" }] })
            }
            Format::Seq(inner) => {
                json!({ "type": "array", "items": self.format(inner, &format!("{at}/0"))? })
            }
            Format::Tuple(inner) => {
                let each: Result<Vec<Value>, SchemaError> =
                    inner.iter().map(|one| self.format(one, "")).collect();
                tuple(&each?)
            }
            Format::TupleArray { content, size } => {
                let one = self.format(content, "")?;
                tuple(&vec![one; *size])
            }
            Format::TypeName(name) => {
                if !self.definitions.contains_key(name) {
                    // Holds the place, so that no type is looked into twice.
                    self.definitions.insert(name.clone(), Value::Null);
                    let definition = self.named(name, at)?;
                    self.definitions.insert(name.clone(), definition);
                }
                json!({ "$ref": format!("#/$defs/{name}") })
            }
            other => return Err(SchemaError::Shape(format!("{other:?}"))),
        })
    }
}

fn tuple(each: &[Value]) -> Value {
    json!({ "type": "array", "prefixItems": each, "items": false, "minItems": each.len() })
}

fn is_plain(value: &Value) -> bool {
    value.is_string() || value.is_number() || value.is_boolean()
}

/// A number of the table of inputs.
fn number(input: &Input) -> Value {
    let mut number = json!({
        "type": "number",
        "minimum": input.permitted.0,
        "maximum": input.permitted.1,
        "default": input.default,
        "title": input.label,
        "description": input.source,
        "tag": input.tag,
    });
    if let Some((low, high)) = input.likely {
        number["likely"] = json!([low, high]);
    }
    if let Some(unit) = si_symbol(input.dimension) {
        number["unit"] = json!(unit);
    }
    number
}

/// Symbol of the SI unit of a dimension, where one of the units that can be typed is it.
fn si_symbol(dimension: Dimension) -> Option<&'static str> {
    let units = dimension.units().iter();
    let mut plain = units.filter(|unit| unit.factor == 1.0 && unit.offset == 0.0);
    plain
        .next()
        .map(|unit| unit.symbol)
        .filter(|symbol| !symbol.is_empty())
}

/// Numbers by what was read: with the range of each, or corrections without.
fn quantities(ranged: bool) -> Value {
    let each = Quantity::ALL.iter().map(|quantity| {
        let mut number = json!({ "type": "number", "title": quantity.label() });
        if ranged {
            let (least, most) = quantity.permitted();
            number["minimum"] = json!(least);
            number["maximum"] = json!(most);
        }
        (quantity.key().to_owned(), number)
    });
    let properties: Map<String, Value> = each.collect();
    json!({ "type": "object", "properties": properties, "additionalProperties": false })
}
