use crate::fixture::*;
use pairwright::pairing::*;
use pairwright::quantity::*;
use pairwright::table::*;
fn show(name: &str, p: &Pairing) {
    println!("## {name}: {} unm={:?}", p.verdict.name(), p.unmendable.iter().map(|c| c.name()).collect::<Vec<_>>());
    for c in &p.changes {
        println!(
            "   {} {:?} mends={:?} {}",
            c.id.name(),
            c.settings.iter().map(|s| (s.name.name(), s.value.in_system(UnitSystem::Metric).0)).collect::<Vec<_>>(),
            c.mends.iter().map(|c| c.name()).collect::<Vec<_>>(),
            c.reason.name()
        );
    }
    for (t, l) in [("now", &p.checks), ("after", &p.checks_after)] {
        for c in l.iter().filter(|c| c.outcome != Outcome::Met) {
            println!(
                "     {t} {} {} blocks={} {:?} worst={:?} lim={:?}",
                c.id.name(),
                c.outcome.name(),
                c.blocks,
                c.reason,
                c.worst.map(|w| w.in_system(UnitSystem::Metric).0),
                c.limit.map(|w| w.in_system(UnitSystem::Metric).0)
            );
        }
    }
}
macro_rules! p {
    ($n:expr, |$c:ident, $h:ident| $b:block) => {
        show(
            $n,
            &pair_of(|$c: &mut Carrier, $h: &mut Head| {
                let _ = (&$c, &$h);
                $b
            }),
        );
    };
}
fn rigid(c: &mut Carrier, h: &mut Head) {
    c.circuits[0].flow_setting = None;
    h.flow.least = stated("84 L/min");
    h.flow.rated = stated("95 L/min");
}
fn spool(c: &mut Carrier, w: &str) {
    c.circuits[0].return_path.loss.as_mut().unwrap().loss = stated(w).unwrap();
}
fn tool(b: Option<&str>) -> Option<Vec<SharedTool>> {
    Some(vec![SharedTool {
        name: "thumb".to_owned(),
        greatest_pressure: b.and_then(stated),
        greatest_flow: None,
        own_relief: None,
        isolated: None,
    }])
}
fn extra(kind: ExtraKind, drive: Drive, volts: &str) -> ExtraFunction {
    ExtraFunction {
        kind,
        drive: Some(drive),
        current: stated("2 A"),
        voltage: stated(volts),
        greatest_pressure: stated("280 bar"),
        flow: None,
    }
}
fn outputs(c: &mut Carrier, n: usize) {
    c.electrics.as_mut().unwrap().outputs =
        Some(vec![Output { name: None, kind: Some(OutputKind::Switched), current: stated("5 A") }; n]);
}
#[test]
fn probe() {
    for b in ["25 bar", "4 bar", "1 bar"] { for sp in [None, Some(true)] {
        p!(&format!("direct {sp:?} {b}"), |c, h| { rigid(c, h); c.power_groups[0].limit = stated("45 kW"); spool(c, "28 bar"); h.outlet.back_pressure = stated(b); c.return_filter.as_mut().unwrap().spare_port = sp; });
    } }
    for b in ["8.5 bar", "9 bar", "9.5 bar", "10 bar", "10.5 bar", "11 bar", "11.5 bar"] { p!(&format!("warm {b}"), |c, h| { h.flow.least = stated("84 L/min"); h.flow.rated = stated("100 L/min"); h.outlet.back_pressure = stated(b); c.circuits[0].return_path.line.segments[0].length = stated("15 m"); }); }
    p!("share", |c, h| { c.circuits[0].flow_setting = None; c.functions.as_mut().unwrap().least_flow = stated("70 L/min"); c.pumps[0].control = Some(PumpControl::Fixed); });
    for y in [None, Some(vec![]), Some(vec![PriorityUser::Steering])] { p!(&format!("share cont {y:?}"), |c, h| { c.circuits[0].flow = stated("60 L/min"); c.pumps[0].control = Some(PumpControl::Negative); c.circuits[0].flow_setting = None; c.pumps[0].also_feeds = y.clone(); }); }
    panic!("done");
}
