//! What is asserted of every schema that this program publishes, and of what it writes by it.

use std::collections::BTreeSet;

use serde_json::Value;

/// What is wrong with a text of JSON by a schema; nothing where it is as the schema says.
pub fn fault(schema: &str, text: &str) -> Option<String> {
    let place = "https://piecewright.invalid/schema.json";
    let mut compiler = boon::Compiler::new();
    compiler.add_resource(place, serde_json::from_str(schema).expect("the schema is JSON")).expect("a resource");
    let mut schemas = boon::Schemas::new();
    let index = compiler.compile(place, &mut schemas).expect("a schema");
    let told: Value = serde_json::from_str(text).expect("JSON");
    schemas.validate(&told, index).err().map(|fault| format!("{fault:#}"))
}

/// Asserts that every object of a schema is closed, asks for all of its properties and says what each is.
pub fn promises_every_key_and_no_other(schema: &str) {
    fn walk(schema: &Value, path: &str) {
        if let Some(properties) = schema.get("properties").and_then(Value::as_object) {
            assert_eq!(schema["additionalProperties"], Value::Bool(false), "{path} is open");
            let required: BTreeSet<&str> =
                schema["required"].as_array().expect("a list").iter().filter_map(Value::as_str).collect();
            assert_eq!(required, properties.keys().map(String::as_str).collect(), "{path}");
            for (key, property) in properties {
                assert!(property.get("description").is_some(), "{path}/{key} is not described");
            }
        }
        match schema {
            Value::Object(map) => map.iter().for_each(|(key, inner)| walk(inner, &format!("{path}/{key}"))),
            Value::Array(list) => list.iter().for_each(|inner| walk(inner, path)),
            _ => {}
        }
    }
    walk(&serde_json::from_str(schema).expect("the schema is JSON"), "");
}
