//! Quick look.
use coolpath_core::document::design::Design;
use coolpath_core::prove::flights::*;
fn main() {
    let args: Vec<String> = std::env::args().collect();
    let design: Design = serde_json::from_str(
        &std::fs::read_to_string("reference/flights/six_310hp_design.json").unwrap(),
    )
    .unwrap();
    let text = std::fs::read_to_string("/work/shared/logs/steady_windows.csv").unwrap();
    let table = WindowTable::read(&text, &Default::default()).unwrap();
    let sick = ["F06", "F08"];
    let fit_on = args.get(1).map(String::as_str).unwrap_or("F01");
    let fit: Vec<_> = table
        .windows
        .iter()
        .filter(|w| w.flight == fit_on)
        .map(|w| w.reading.clone())
        .collect();
    for (name, on) in [
        (
            "healthy",
            table
                .windows
                .iter()
                .filter(|w| w.flight != fit_on && !sick.contains(&w.flight.as_str()))
                .cloned()
                .collect::<Vec<_>>(),
        ),
        (
            "F06",
            table
                .windows
                .iter()
                .filter(|w| w.flight == "F06")
                .cloned()
                .collect(),
        ),
        (
            "F08",
            table
                .windows
                .iter()
                .filter(|w| w.flight == "F08")
                .cloned()
                .collect(),
        ),
    ] {
        let found = if fit_on == "none" {
            predict(&design, &on)
        } else {
            check(&design, &fit, &on).unwrap()
        };
        if name == "healthy" {
            for f in &found.fitted {
                println!(
                    "  {} {:.5} [{:.5} {:.5}] moved {:.2}",
                    f.parameter.name(),
                    f.value,
                    f.likely.0,
                    f.likely.1,
                    f.moved
                );
            }
        }
        println!("{name}: refused {}", found.refused.len());
        for r in &found.refused {
            println!("   {} {}", r.place, r.reason);
        }
        for figure in Figure::ALL {
            if let Some(s) = summary(&found.judged, figure) {
                println!(
                    "  {:13} n {:3} bias {:6.1} rms {:5.1} F inside {:.2}",
                    figure.name(),
                    s.count,
                    s.bias * 1.8,
                    s.rms * 1.8,
                    s.inside_share
                );
            }
        }
        if name == "healthy" || args.len() > 2 {
            for j in &found.judged {
                let w = &on[j.place];
                let g = |f| {
                    j.get(f)
                        .map(|c: Compared| {
                            format!(
                                "{:4.0}/{:4.0} ({:+.0}, ±{:.0})",
                                c.predicted * 1.8 - 459.67,
                                c.measured * 1.8 - 459.67,
                                c.miss() * 1.8,
                                (c.high - c.low) * 0.9
                            )
                        })
                        .unwrap_or_default()
                };
                let ff = j
                    .condition
                    .get(&coolpath_core::document::quantity::Quantity::FuelFlow)
                    .copied()
                    .unwrap_or(0.0)
                    / (231.0 * 0.0254f64.powi(3) / 3600.0);
                println!(
                    "   {} {:5.1} gph mean {} hot {} oil {}",
                    w.flight,
                    ff,
                    g(Figure::HeadMean),
                    g(Figure::HeadHottest),
                    g(Figure::Oil)
                );
            }
        }
    }
}
