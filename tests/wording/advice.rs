//! What people are told to do at a machine that is under pressure, hot or turning: nothing of it may hurt whoever does it.

use super::words;
use pairwright::pairing::FactId;
use pairwright::pairing::handover::LookAt;
use pairwright::quantity::{Named, UnitSystem};
use pairwright::record::plate::Figure;

/// Every text that sends somebody to a part of the machine to find something out.
fn advice() -> Vec<&'static str> {
    let words = words(UnitSystem::Metric);
    let looks = LookAt::ALL.iter().map(|&at| words.look_at(at));
    let places = FactId::ALL.iter().map(|&fact| words.place(fact));
    let figures = Figure::ALL.iter().map(|&figure| words.figure_place(figure));
    looks.chain(places).chain(figures).collect()
}

#[test]
fn no_hand_is_laid_on_a_line_to_find_out_whether_it_is_hot() {
    for text in advice() {
        let lower = text.to_lowercase();
        assert!(!lower.contains("feel") && !lower.contains("by hand") && !lower.contains("touch"), "{text}");
        let heat = ["hot", "hotter", "cool", "cold", "heats"];
        let of_heat = lower.split(|c: char| !c.is_alphabetic()).any(|word| heat.contains(&word));
        if of_heat && !lower.contains("tank") {
            assert!(lower.contains("infrared thermometer") && lower.contains("engine off"), "{text}");
        }
    }
    let told = advice().iter().filter(|text| text.contains("infrared thermometer")).count();
    assert_eq!(told, 5, "texts that tell how heat is found");
}

/// It is the only thing that limits the pressure.
#[test]
fn the_relief_is_exchanged_or_tested_and_never_blocked() {
    let text = words(UnitSystem::Metric).look_at(LookAt::ReliefPort);
    assert!(text.starts_with("Engine off, pressure out: exchange") && text.contains("tested on a bench"), "{text}");
    assert!(text.contains("never blocked"), "{text}");
    for text in advice() {
        let blocks = text.contains("blocked") || text.contains("block off") || text.contains("plug its port");
        assert!(!blocks || text.contains("never blocked"), "{text}");
    }
}
