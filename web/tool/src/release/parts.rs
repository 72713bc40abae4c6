//! The list of parts (CycloneDX 1.5): every package that stands in the program.

use crate::origin::Origin;
use crate::release::licences::Package;
use serde_json::{Value, json};

/// The list as JSON.
pub(crate) fn text(origin: &Origin, packages: &[Package]) -> String {
    let components: Vec<Value> = packages
        .iter()
        .map(|package| {
            let purl = format!("pkg:cargo/{}@{}", package.name, package.version);
            json!({
                "type": "library",
                "bom-ref": purl,
                "name": package.name,
                "version": package.version,
                "purl": purl,
                "licenses": [{ "expression": expression(&package.licence) }],
            })
        })
        .collect();
    let list = json!({
        "bomFormat": "CycloneDX",
        "specVersion": "1.5",
        "version": 1,
        "metadata": {
            "component": {
                "type": "application",
                "bom-ref": "coolpath",
                "name": "coolpath",
                "version": origin.version,
                "licenses": [{ "expression": env!("CARGO_PKG_LICENSE") }],
            },
        },
        "components": components,
    });
    format!("{list:#}\n")
}

/// A licence as an expression; older manifests write a stroke for a choice.
fn expression(licence: &str) -> String {
    let choices: Vec<&str> = licence.split('/').map(str::trim).collect();
    choices.join(" OR ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_package_is_a_part_with_its_licence() {
        let origin = Origin {
            version: "1.2.3",
            commit: None,
            date: None,
            notices: None,
        };
        let package = Package {
            name: "one".to_owned(),
            version: "1.0.0".to_owned(),
            licence: "MIT/Apache-2.0".to_owned(),
            authors: Vec::new(),
            texts: Vec::new(),
        };
        let list: Value = serde_json::from_str(&text(&origin, &[package])).expect("JSON");
        assert_eq!(list["metadata"]["component"]["version"], "1.2.3");
        let part = &list["components"][0];
        assert_eq!(part["purl"], "pkg:cargo/one@1.0.0");
        assert_eq!(part["licenses"][0]["expression"], "MIT OR Apache-2.0");
    }
}
