#[path = "../tests/support/detail.rs"]
#[allow(dead_code)]
mod detail;
use dewmargin::solve::conduction::*;
fn main() {
    for (foam, want) in [(0.0, 0.23201), (25.4, 0.09919)] {
        let d = detail::sound(detail::reference_edge(foam));
        for (h0, g, s) in [(4e-4, 0.3, 2.4), (1e-4, 0.35, 4.8), (1e-4, 0.35, 2.4)] {
            for splits in [1, 2, 4, 8] {
                let grid = Grid::graded(&d, &Grading { at_edge: h0, growth: g, scale: s }, splits).unwrap();
                let cells = grid.cells();
                let t = std::time::Instant::now();
                let sol = Solution::on(&d, grid, &SolveTolerance::default());
                let ms = t.elapsed().as_secs_f64() * 1e3;
                let psi = sol.heat_flow() / 30.0 - detail::reference_clear(foam);
                let up: Vec<_> = sol.surface(1).into_iter().filter(|p| p.facing == dewmargin::model::detail::Facing::Up).collect();
                println!("{foam} h0 {h0} s {s} x{splits} cells {cells} psi {psi:.6} err {:.3}% coldest {:?} {:?} {ms:.2} ms", (psi / want - 1.0) * 100.0, coldest(&up).map(|p| (p.x, p.temperature)), sol.report());
            }
        }
    }
}
