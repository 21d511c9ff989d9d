#[path = "../tests/support/detail.rs"]
#[allow(dead_code)]
mod detail;
use detail::*;
use dewmargin::solve::conduction::*;
fn show(name: &str, d: &dewmargin::model::detail::Detail, p: &Precision) -> Conduction {
    let t = std::time::Instant::now();
    let r = solve_detail(d, p).unwrap();
    let ms = t.elapsed().as_secs_f64() * 1e3;
    println!(
        "{name}: q {:?} L {:?} settled {} {ms:.1} ms",
        r.heat_flow, r.coupling, r.settled
    );
    for c in r.coldest.iter().flatten() {
        println!(
            "   coldest {:.4} ±{:.4} at {:.4},{:.4}",
            c.point.temperature, c.bar, c.point.x, c.point.y
        );
    }
    for g in &r.grids {
        println!(
            "   {} q {} {:?} {:?}",
            g.cells, g.heat_flow, g.report, g.coldest
        )
    }
    r
}
fn main() {
    for foam in [0.0, 25.4] {
        let d = sound(reference_edge(foam));
        let r = show("edge", &d, &Precision::default());
        println!("   psi {:?}", r.psi(reference_clear(foam)));
        let b = |n: &str| {
            println!(
                "   {n} {:?}",
                r.coldest_of_block(d.block(n).unwrap()).map(|c| (
                    c.point.temperature,
                    c.bar,
                    c.point.x
                ))
            )
        };
        b("subfloor");
        b("plate");
        b("rim joist");
        b("flange");
        let f = Field::of(&r.solution);
        for t in [0.0, 10.0, 15.0] {
            let l = isotherms(&f, t);
            println!(
                "   isotherm {t}: {:?}",
                l.iter()
                    .map(|p| (p.len(), p[0], p[p.len() - 1]))
                    .collect::<Vec<_>>()
            );
        }
        println!(
            "{:?}",
            couplings(&d, &Precision::default()).unwrap().between
        );
    }
    // case 1
    let mut p = cut(500.0, 1000.0);
    block(&mut p, "c", 1.0, mm(0., 500., 0., 1000.));
    held(&mut p, "top", 20.0, mm(0., 500., 1000., 1000.));
    held(&mut p, "left", 0.0, mm(0., 0., 0., 1000.));
    held(&mut p, "bottom", 0.0, mm(0., 500., 0., 0.));
    let d = sound(p);
    let r = show("case1", &d, &Precision::default());
    let f = r.temperatures_at(&[(0.125, 0.875), (0.5, 0.5), (0.5, 0.125)]);
    println!("{f:?} want 9.6581878 5.0 0.8863142");
    // case 2
    let mut p = cut(500.0, 47.5);
    block(&mut p, "ins", 0.029, mm(0., 500., 0., 47.5));
    block(&mut p, "plate", 230., mm(0., 500., 0., 1.5));
    block(&mut p, "web", 230., mm(0., 1.5, 1.5, 35.));
    block(&mut p, "fl", 230., mm(0., 15., 35., 36.5));
    block(&mut p, "wood", 0.12, mm(0., 15., 36.5, 41.5));
    block(&mut p, "concrete", 1.15, mm(0., 500., 41.5, 47.5));
    let o = air(&mut p, "out", 0.0);
    let i = air(&mut p, "in", 20.0);
    open(&mut p, "t", o, 0.06, mm(0., 500., 47.5, 47.5));
    open(&mut p, "b", i, 0.11, mm(0., 500., 0., 0.));
    let d = sound(p);
    let r = show("case2", &d, &Precision::default());
    let pts = [
        (0., 47.5),
        (500., 47.5),
        (0., 41.5),
        (15., 41.5),
        (500., 41.5),
        (0., 36.5),
        (15., 36.5),
        (0., 0.),
        (500., 0.),
    ]
    .map(|(x, y)| (x * 1e-3, y * 1e-3));
    println!(
        "{:?}",
        r.temperatures_at(&pts)
            .iter()
            .map(|e| e.map(|e| (e.value * 1e3).round() / 1e3))
            .collect::<Vec<_>>()
    );
    println!("7.064 0.761 7.897 6.272 0.827 16.408 16.333 16.767 18.334");
}
