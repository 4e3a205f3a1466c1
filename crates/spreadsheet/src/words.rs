//! What the trade writes above a column, and what it writes in one. The format's own names need no row here.

use crate::Role::{self, Attachments, Machines, Parts};

/// Headers in plain words, each with the field that it means in a list. The words are folded by [`folded`].
pub const HEADERS: &[(Role, &str, &[&str])] = &[
    (Machines, "id", &["id", "machine id", "unit number", "stock number", "fleet number", "machine number", "number"]),
    (Machines, "maker", &["maker", "make", "manufacturer", "brand"]),
    (Machines, "model", &["model", "model name", "model number", "machine", "machine model", "name"]),
    (Machines, "class", &["class", "type", "machine type", "machine class", "category", "kind", "kind of machine"]),
    (Machines, "serial_range", &["serial", "serial number", "serial numbers", "serial range", "from serial"]),
    (Machines, "link", &["link", "url", "web", "web page", "website", "web address"]),
    (Machines, "stock", &["stock", "in stock", "stock note", "available", "availability", "yard"]),
    (Machines, "checked", &["checked", "last checked", "date checked", "updated", "last updated"]),
    (
        Machines,
        "operating_mass",
        &["mass", "weight", "operating weight", "operating mass", "machine weight", "service weight"],
    ),
    (Machines, "engine.power", &["power", "engine", "engine power", "net power", "net engine power", "engine output"]),
    (
        Machines,
        "engine.working_speed",
        &["engine speed", "rated engine speed", "rated speed", "working speed", "engine working speed"],
    ),
    (Machines, "main_relief", &["main relief", "main relief pressure", "system pressure", "main pressure"]),
    (Machines, "pumps.greatest_flow", &["pump flow", "max pump flow", "pump output", "total pump flow"]),
    (Machines, "pumps.displacement", &["pump displacement"]),
    (Machines, "pumps.kind", &["pump", "pump type", "pump kind"]),
    (Machines, "pumps.control", &["pump control"]),
    (Machines, "pumps.pressure", &["pump pressure", "max pump pressure"]),
    (Machines, "circuits.name", &["circuit", "circuit name", "aux circuit"]),
    (
        Machines,
        "circuits.flow",
        &[
            "aux flow",
            "flow",
            "oil flow",
            "hydraulic flow",
            "aux hydraulic flow",
            "max aux flow",
            "max flow",
            "aux oil flow",
            "aux",
        ],
    ),
    (
        Machines,
        "circuits.relief",
        &[
            "relief",
            "aux relief",
            "relief pressure",
            "relief setting",
            "aux relief pressure",
            "aux relief setting",
            "aux pressure",
            "aux hydraulic pressure",
            "max pressure",
            "pressure",
            "hydraulic pressure",
            "max hydraulic pressure",
        ],
    ),
    (Machines, "circuits.relief_range", &["relief range", "aux relief range"]),
    (Machines, "circuits.ways", &["ways", "one or two way", "direction", "flow direction"]),
    (Machines, "circuits.continuous", &["continuous", "continuous flow", "detent"]),
    (
        Machines,
        "circuits.coupling.size",
        &[
            "coupling",
            "coupling size",
            "quick coupling",
            "quick coupling size",
            "aux coupling size",
            "aux coupling",
            "size of coupling",
        ],
    ),
    (
        Machines,
        "circuits.coupling.standard",
        &["coupling standard", "coupling type", "quick coupling type", "type of coupling"],
    ),
    (Machines, "circuits.return_path.route", &["return", "return path", "return route"]),
    (Machines, "case_line.fitted", &["case drain", "case drain line", "case line", "drain line", "case drain fitted"]),
    (Machines, "return_filter.rated_flow", &["return filter flow"]),
    (
        Machines,
        "tank.volume",
        &["tank", "tank volume", "oil tank", "hydraulic tank", "hydraulic tank volume", "reservoir", "tank capacity"],
    ),
    (Machines, "oil.grade", &["oil", "oil grade", "hydraulic oil", "hydraulic oil grade"]),
    (Machines, "electrics.voltage", &["voltage", "system voltage", "electrics"]),
    (Machines, "lifting.rated_operating_capacity", &["rated operating capacity", "operating capacity", "roc"]),
    (Machines, "lifting.tipping_load", &["tipping load", "tip load"]),
    (Machines, "mounting.standard", &["mounting", "mount", "mounting standard", "mounting plate", "attachment plate"]),
    (Machines, "mounting.pin", &["pin", "pins", "pin size", "pin diameter"]),
    (Machines, "mounting.width", &["stick width", "dipper width", "pin width", "arm width"]),
    (Machines, "mounting.centres", &["pin centres", "pin centers", "pin distance", "centres", "centers"]),
    (Machines, "coupler.fitted", &["coupler", "quick hitch", "quick coupler", "hitch"]),
    (Machines, "travel_speed", &["travel speed"]),
    (Attachments, "id", &["id", "attachment id", "stock number", "attachment number", "number"]),
    (Attachments, "maker", &["maker", "make", "manufacturer", "brand"]),
    (Attachments, "model", &["model", "model name", "model number", "attachment", "attachment model", "name"]),
    (Attachments, "kind", &["kind", "type", "attachment type", "class", "category", "kind of attachment"]),
    (Attachments, "link", &["link", "url", "web", "web page", "website", "web address"]),
    (Attachments, "stock", &["stock", "in stock", "stock note", "available", "availability", "yard"]),
    (Attachments, "checked", &["checked", "last checked", "date checked", "updated", "last updated"]),
    (Attachments, "mass", &["mass", "weight", "attachment weight", "operating weight", "own weight"]),
    (
        Attachments,
        "flow",
        &[
            "flow",
            "oil flow",
            "flow range",
            "flow window",
            "hydraulic flow",
            "required flow",
            "aux flow",
            "oil flow range",
            "hydraulic flow range",
        ],
    ),
    (Attachments, "flow.least", &["min flow", "flow min", "min oil flow", "flow from", "min hydraulic flow"]),
    (Attachments, "flow.rated", &["rated flow", "recommended flow", "best flow", "nominal flow"]),
    (Attachments, "flow.greatest", &["max flow", "flow max", "max oil flow", "flow to", "max hydraulic flow"]),
    (Attachments, "pressure.working", &["working pressure", "operating pressure", "pressure", "oil pressure"]),
    (Attachments, "pressure.relief", &["relief", "relief setting", "relief pressure"]),
    (Attachments, "pressure.greatest", &["max pressure", "pressure max", "max oil pressure", "max inlet pressure"]),
    (Attachments, "motor.kind", &["motor", "motor type", "motor kind"]),
    (Attachments, "motor.displacement", &["displacement", "motor displacement", "motor size"]),
    (Attachments, "motor.rotor_speed.rated", &["rotor speed", "speed", "rated rotor speed", "drum speed"]),
    (Attachments, "motor.rotor_speed.greatest", &["max rotor speed", "max speed", "max drum speed"]),
    (
        Attachments,
        "outlet.back_pressure",
        &[
            "back pressure",
            "backpressure",
            "max back pressure",
            "back pressure max",
            "max backpressure",
            "return pressure",
            "max return pressure",
        ],
    ),
    (
        Attachments,
        "outlet.case_pressure",
        &["case pressure", "max case pressure", "case drain pressure", "max case drain pressure"],
    ),
    (
        Attachments,
        "outlet.needs_case_line",
        &[
            "case drain",
            "case drain required",
            "case drain needed",
            "needs case drain",
            "case line",
            "drain line",
            "case drain line",
        ],
    ),
    (Attachments, "outlet.case_flow", &["case flow", "case drain flow"]),
    (Attachments, "coupling.size", &["coupling", "coupling size", "quick coupling size"]),
    (Attachments, "coupling.standard", &["coupling standard", "coupling type"]),
    (Attachments, "mounting.standard", &["mounting", "mount", "mounting standard", "mounting plate"]),
    (Attachments, "mounting.pin", &["pin", "pins", "pin size", "pin diameter"]),
    (Attachments, "mounting.width", &["ear width", "pin width", "gap between ears", "width between ears"]),
    (Attachments, "mounting.centres", &["pin centres", "pin centers", "pin distance", "centres", "centers"]),
    (
        Attachments,
        "carrier_mass",
        &[
            "machine weight",
            "carrier weight",
            "machine weight range",
            "machine mass",
            "for machines",
            "machine class",
            "carrier class",
            "excavator weight",
        ],
    ),
    (
        Attachments,
        "carrier_mass.least",
        &["min machine weight", "min carrier weight", "machine weight min", "machine weight from"],
    ),
    (
        Attachments,
        "carrier_mass.greatest",
        &["max machine weight", "max carrier weight", "machine weight max", "machine weight to"],
    ),
    (Attachments, "work.width", &["width", "working width", "cutting width"]),
    (Attachments, "work.depth", &["depth", "working depth", "cutting depth"]),
    (Attachments, "work.payload", &["payload"]),
    (Attachments, "centre_of_gravity", &["centre of gravity", "center of gravity", "cog"]),
    (Attachments, "power", &["power", "hydraulic power", "required power", "power range"]),
    (Attachments, "demands.return_filter", &["return filter", "return filter required"]),
    (
        Attachments,
        "demands.thrown_object_distance",
        &["safety distance", "danger zone", "throw distance", "thrown object distance"],
    ),
    (Attachments, "run_down_check", &["anti cavitation check", "anti cavitation valve", "anti cavitation check valve"]),
    (Attachments, "ways", &["ways", "one or two way", "direction of rotation", "flow direction"]),
    (Attachments, "duty", &["duty", "duty cycle"]),
    (Parts, "id", &["id", "part id"]),
    (Parts, "change", &["change", "for change", "used for", "what for"]),
    (Parts, "name", &["name", "part", "part name", "description"]),
    (Parts, "number", &["number", "part number", "stores number", "order number"]),
    (Parts, "bore", &["bore", "size", "inner diameter", "hose size"]),
    (Parts, "rated_flow", &["flow", "rated flow", "max flow"]),
    (Parts, "rated_pressure", &["pressure", "rated pressure", "max pressure"]),
    (Parts, "loss", &["loss", "pressure loss", "pressure drop"]),
    (Parts, "price", &["price", "cost", "net price", "list price"]),
    (
        Parts,
        "time",
        &["time", "hours", "labour", "labor", "fitting time", "workshop time", "labour time", "labor time"],
    ),
];

/// What people write for the names of closed lists, each with the name that it means.
pub const NAMES: &[(&str, &[&str])] = &[
    ("excavator", &["digger", "tracked excavator", "crawler excavator"]),
    ("micro-excavator", &["micro digger", "micro"]),
    ("mini-excavator", &["mini digger", "mini", "compact excavator"]),
    ("midi-excavator", &["midi digger", "midi"]),
    ("skid-steer", &["skid steer loader", "skid loader", "ssl"]),
    ("compact-track-loader", &["track loader", "ctl", "compact tracked loader", "tracked loader"]),
    ("wheel-loader", &["wheeled loader", "loading shovel"]),
    ("backhoe-loader", &["backhoe"]),
    ("rotary-cutter", &["brush cutter", "rotary brush cutter", "rotary mower"]),
    ("flail", &["flail mower", "flail cutter", "flail head"]),
    ("auger", &["earth auger", "auger drive", "earth drill"]),
    ("breaker", &["hydraulic breaker", "hammer", "hydraulic hammer", "rock breaker"]),
    ("stump-grinder", &["stump cutter"]),
    ("plate-compactor", &["compactor", "compactor plate"]),
    ("cold-planer", &["planer", "milling machine"]),
    ("saw", &["wheel saw", "rock saw"]),
    ("sweeper", &["broom", "angle broom", "road sweeper"]),
    ("snow-blower", &["snowblower", "snow thrower"]),
    ("one", &["one way", "1", "1 way", "single acting", "single"]),
    ("two", &["two way", "2", "2 way", "double acting", "double"]),
    ("iso-16028", &["flat face", "flat faced"]),
    ("gear", &["gear pump"]),
    ("load-sensing", &["ls", "load sense"]),
];

/// Words above a column, made alike: small letters, no signs, the long form of what the trade shortens.
pub fn folded(header: &str) -> String {
    let mut spaced = String::new();
    for sign in header.chars() {
        match sign {
            '#' => spaced.push_str(" number "),
            sign if sign.is_alphanumeric() => spaced.extend(sign.to_lowercase()),
            _ => spaced.push(' '),
        }
    }
    let long = |word: &str| match word {
        "maximum" | "greatest" | "maximal" => "max".to_owned(),
        "minimum" | "least" | "minimal" => "min".to_owned(),
        "auxiliary" | "auxillary" => "aux".to_owned(),
        "hyd" | "hydraulics" | "hydr" => "hydraulic".to_owned(),
        "wt" => "weight".to_owned(),
        "no" | "nr" | "num" => "number".to_owned(),
        "op" => "operating".to_owned(),
        "mfr" | "mfg" => "manufacturer".to_owned(),
        "dia" => "diameter".to_owned(),
        "req" | "reqd" => "required".to_owned(),
        word => word.to_owned(),
    };
    spaced.split_whitespace().map(long).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::Target;
    use std::collections::HashSet;
    use table::row::Form;

    #[test]
    fn every_header_leads_to_a_field_that_exists_and_none_to_two() {
        let mut seen = HashSet::new();
        for (role, field, headers) in HEADERS {
            assert!(Target::named(*role, field).is_some(), "{field}");
            for header in *headers {
                assert_eq!(folded(header), *header, "is written as it is folded");
                assert!(seen.insert((role, header)), "{role:?} {header} stands twice");
            }
        }
    }

    #[test]
    fn every_word_leads_to_a_name_of_some_list_and_none_to_two() {
        let lists = Role::ALL.iter().flat_map(|role| &role.fields().0).filter_map(|field| match field.form {
            Form::Name(names) => Some(names),
            _ => None,
        });
        let known: HashSet<_> = lists.flatten().copied().collect();
        let mut seen = HashSet::new();
        for (name, words) in NAMES {
            assert!(known.contains(name), "{name}");
            assert!(words.iter().all(|word| seen.insert(word)), "{name}");
        }
    }
}
