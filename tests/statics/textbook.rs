//! Published worked examples. Each names its source; forces and lengths in the units of the book,
//! which the engine does not mind as long as they belong together.

use rigging_core::statics::{Equilibrium, PointId, Rig, Settings, Vector, solve};

/// Stiff enough that a book's rigid geometry holds to its printed digits.
const RIGID: f64 = 1e7;

fn at_rest(rig: &Rig) -> Equilibrium {
    let solution = solve(rig, &Settings::default());
    assert!(solution.imbalance <= 1e-9);
    solution.balanced().expect("a textbook rig comes to rest").clone()
}

fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "found {found}, published {expected} ± {tolerance}");
}

/// A point held by lines along `directions` (from the point), as long as they are.
fn hung_from(directions: &[[f64; 3]], load: [f64; 3]) -> Equilibrium {
    let mut rig = Rig::new();
    let point = rig.add_free("point", [0.0, 0.0, 0.0], load).unwrap();
    for (number, &direction) in directions.iter().enumerate() {
        let anchor = rig.add_held(format!("anchor {number}"), direction).unwrap();
        let length = Vector::from(direction).norm();
        rig.add_line(format!("line {number}"), &[anchor, point], length, RIGID).unwrap();
    }
    at_rest(&rig)
}

/// S6. Hibbeler, *Statics*, example 3.7.
#[test]
fn forty_pounds_on_three_cables_in_space() {
    let rest = hung_from(&[[-3.0, -4.0, 8.0], [-3.0, 4.0, 8.0], [10.0, 0.0, 0.0]], [0.0, 0.0, -40.0]);
    near(rest.lines[0].tension(), 23.6, 0.05);
    near(rest.lines[1].tension(), 23.6, 0.05);
    near(rest.lines[2].tension(), 15.0, 0.05);
}

/// S7. Hibbeler, *Statics*, example 3.6: the force that balances three others.
#[test]
fn one_line_turns_into_the_direction_that_balances_three_forces() {
    let third = Vector::new(-2.0, -3.0, 6.0).normalize() * 700.0;
    let load = Vector::new(0.0, 400.0, -800.0) + third;
    let mut rig = Rig::new();
    let point = rig.add_free("point", [1.0, 1.0, 1.0], load).unwrap();
    let anchor = rig.add_held("anchor", [0.0, 0.0, 0.0]).unwrap();
    rig.add_line("line", &[anchor, point], 2.0, RIGID).unwrap();
    let rest = at_rest(&rig);
    near(rest.lines[0].tension(), 300.0, 0.5);
    // The anchor feels the opposite of the force that balances.
    let reaction = rest.point(anchor).unwrap().reaction.unwrap();
    near(reaction.x, -200.0, 0.5);
    near(reaction.y, 100.0, 0.5);
    near(reaction.z, -200.0, 0.5);
}

/// S8. Baker & Haynes, *Engineering Statics*, chapter 3: six wires of 10.0 kN at 76° to the axis.
/// The pole, which pushes up, is a line to an anchor far above.
#[test]
fn a_guy_holds_a_pole_against_six_wires() {
    let (axis, guy) = (76_f64.to_radians(), 38_f64.to_radians());
    let rest = hung_from(&[[-guy.sin() * 1e4, 0.0, -guy.cos() * 1e4], [0.0, 0.0, 1e4]], [60.0 * axis.cos(), 0.0, 0.0]);
    near(rest.lines[0].tension(), 23.6, 0.05);
    near(rest.points[1].reaction.unwrap().x, 14.5, 0.05);
}

/// S10. Timoshenko, *Strength of Materials I*, page 10, problem 2; the exact geometry is derived.
#[test]
fn two_bars_stretch_by_what_the_deformed_shape_says() {
    let (length, area, modulus) = (180.0, 0.5, 30e6);
    let slope = 30_f64.to_radians();
    let half = length * slope.cos();
    let mut rig = Rig::new();
    let left = rig.add_held("left", [-half, 0.0, 0.0]).unwrap();
    let right = rig.add_held("right", [half, 0.0, 0.0]).unwrap();
    let drop = length * slope.sin();
    let middle = rig.add_free("middle", [0.0, 0.0, -drop], [0.0, 0.0, -5000.0]).unwrap();
    for (name, anchor) in [("left bar", left), ("right bar", right)] {
        rig.add_line(name, &[anchor, middle], length, area * modulus).unwrap();
    }
    let rest = at_rest(&rig);
    near(rest.lines[0].tension() / area, 9990.0, 0.1);
    near(-drop - rest.point(middle).unwrap().at.z, 0.11982, 1e-5);
}

/// Points in order joined by lines whose tensions are known beforehand, so that each stretches to
/// the length between them.
fn polygon(points: &[[f64; 3]], loads: &[f64], tensions: &[f64]) -> Equilibrium {
    let stiffness = 1e6;
    let mut rig = Rig::new();
    let last = points.len() - 1;
    let ids: Vec<PointId> = points
        .iter()
        .enumerate()
        .map(|(number, &at)| {
            let name = format!("point {number}");
            if number == 0 || number == last {
                rig.add_held(name, at).unwrap()
            } else {
                // The first guess is the straight line between the supports.
                let share = number as f64 / last as f64;
                let chord = Vector::from(points[0]).lerp(&Vector::from(points[last]), share);
                rig.add_free(name, chord, [0.0, 0.0, -loads[number - 1]]).unwrap()
            }
        })
        .collect();
    for (number, pair) in points.windows(2).enumerate() {
        let reach = (Vector::from(pair[1]) - Vector::from(pair[0])).norm();
        let length = reach / (1.0 + tensions[number] / stiffness);
        rig.add_line(format!("line {number}"), &ids[number..number + 2], length, stiffness).unwrap();
    }
    at_rest(&rig)
}

/// S11. Tayal, *Engineering Mechanics*, example 10.2: lengths such that H is 200 N.
#[test]
fn a_cable_with_three_loads_pulls_its_supports_as_published() {
    // Four bays of 1 m; slope of each is its vertical force over H.
    let tensions = [360.555, 282.843, 206.155, 250.0];
    let points = [[0.0, 0.0, 0.0], [1.0, 0.0, -1.5], [2.0, 0.0, -2.5], [3.0, 0.0, -2.75], [4.0, 0.0, -2.0]];
    let rest = polygon(&points, &[100.0, 150.0, 200.0], &tensions);
    for (line, tension) in rest.lines.iter().zip(tensions) {
        near(line.tension(), tension, 1e-3);
    }
    near(rest.points[0].reaction.unwrap().z, -300.0, 1e-3);
    near(rest.points[4].reaction.unwrap().z, -150.0, 1e-3);
    near(rest.points[0].reaction.unwrap().x, 200.0, 1e-3);
}

/// S12. Beer & Johnston, problem 7.115: a moment of 1800 lb·ft about the low point and 600 lb of
/// vertical force, taken as one load of 600 lb at 3 ft.
#[test]
fn a_cable_of_720_pounds_has_its_horizontal_part_and_sag() {
    let sag = 4.52;
    let rest = polygon(&[[0.0, 0.0, 0.0], [3.0, 0.0, -sag], [6.0, 0.0, -sag]], &[600.0], &[720.0, 398.0]);
    near(rest.lines[0].tension(), 720.0, 0.5);
    near(rest.lines[1].tension(), 398.0, 0.5);
    near(1800.0 / rest.lines[1].tension(), sag, 0.005);
}

/// S13. Tayal, example 10.3: 75 kg per horizontal metre, span 20 m, low point 2 m below B and 4.5 m
/// below A, g 9.81. A polygon with equal bays has its corners on the parabola.
#[test]
fn a_parabola_of_many_bays_has_the_published_pull() {
    let bays = 40;
    let (load, low) = (75.0 * 9.81, 12.0);
    let bay = 20.0 / bays as f64;
    let pull = 11_772.0;
    let place = |number: usize| {
        let x = number as f64 * bay;
        [x, 0.0, load * (x - low) * (x - low) / (2.0 * pull)]
    };
    let points: Vec<[f64; 3]> = (0..=bays).map(place).collect();
    near(points[0][2], 4.5, 1e-3);
    near(points[bays][2], 2.0, 1e-3);
    let tensions: Vec<f64> =
        points.windows(2).map(|pair| pull * (1.0 + ((pair[1][2] - pair[0][2]) / bay).powi(2)).sqrt()).collect();
    let rest = polygon(&points, &vec![load * bay; bays - 1], &tensions);
    let reaction = rest.points[0].reaction.unwrap();
    near(reaction.x / 1000.0, 11.772, 1e-3);
    // Half a bay hangs on the support itself.
    let end = reaction.x.hypot(reaction.z - 0.5 * load * bay);
    near(end / 1000.0, 14.715, 1e-3);
}

/// A line with weight between two anchors, `across` and `up` apart.
struct Span {
    horizontal: f64,
    vertical_first: f64,
    vertical_last: f64,
    end: f64,
    length: f64,
}

fn span(across: f64, up: f64, length: f64, stiffness: f64, weight: f64) -> Span {
    let mut rig = Rig::new();
    let first = rig.add_held("first", [0.0, 0.0, 0.0]).unwrap();
    let last = rig.add_held("last", [across, 0.0, up]).unwrap();
    rig.add_heavy_line("line", &[first, last], length, stiffness, weight).unwrap();
    let rest = at_rest(&rig);
    let reaction = |id| rest.point(id).unwrap().reaction.unwrap();
    Span {
        horizontal: reaction(first).x,
        vertical_first: reaction(first).z,
        vertical_last: reaction(last).z,
        end: rest.lines[0].tension_last,
        length: rest.lines[0].length,
    }
}

/// Length of an inextensible level catenary of parameter `c = H/w`.
fn level_length(across: f64, c: f64) -> f64 {
    2.0 * c * (across / (2.0 * c)).sinh()
}

const INEXTENSIBLE: f64 = 1e12;

/// S14. Tayal, example 10.4: 0.5 kg/m, span 30 m, sag 0.5 m, g 9.81.
#[test]
fn a_shallow_line_pulls_as_its_catenary_says() {
    let weight = 0.5 * 9.81;
    // c (cosh(15/c) − 1) = 0.5, by halving.
    let (mut low, mut high) = (100.0, 400.0);
    for _ in 0..100 {
        let c = 0.5 * (low + high);
        if c * ((15.0_f64 / c).cosh() - 1.0) > 0.5 { low = c } else { high = c }
    }
    let length = level_length(30.0, low);
    near(length, 30.0222, 1e-4);
    near(span(30.0, 0.0, length, INEXTENSIBLE, weight).end, 1106.49, 0.01);
}

/// S15. Tayal, example 10.6: length 200 m, 1000 kg, sag 50 m.
#[test]
fn a_deep_line_sags_as_published() {
    let weight = 1000.0 * 9.81 / 200.0;
    let line = span(164.7918, 0.0, 200.0, INEXTENSIBLE, weight);
    near((line.end - line.horizontal) / weight, 50.0, 1e-3);
}

/// S16. Public-domain overhead-line test suite: level 1000, w 0.5, H 1000.
#[test]
fn an_overhead_line_sags_as_published() {
    let length = level_length(1000.0, 2000.0);
    near(length, 1010.45, 0.01);
    let line = span(1000.0, 0.0, length, INEXTENSIBLE, 0.5);
    near(line.horizontal, 1000.0, 0.01);
    near(line.end, 1031.41, 0.01);
    let sag = (line.end - line.horizontal) / 0.5;
    near(sag, 62.83, 0.01);
}

/// S18. The same suite: the same line across a current, its load turned by 45° about the span. A line of the engine
/// weighs downward only, so this one is a chain that starts along the span.
#[test]
fn a_line_across_a_current_lies_in_the_plane_of_its_load() {
    let (links, stiffness) = (100, 1e6);
    let link = level_length(1000.0, 2000.0) / f64::from(links);
    let mut rig = Rig::new();
    let mut last = rig.add_held("first", [0.0; 3]).unwrap();
    let mut middle = last;
    for number in 1..=links {
        let (name, at) = (format!("joint {number}"), [1000.0 * f64::from(number) / f64::from(links), 0.0, 0.0]);
        let load = [0.0, 0.3535533 * link, -0.3535533 * link];
        let joint = if number < links { rig.add_free(name, at, load) } else { rig.add_held(name, at) }.unwrap();
        // As long as it must be to have the length of the book under what it carries: H 1000, and 0.5 a metre from the
        // middle on.
        let tension = 1000_f64.hypot(0.5 * link * (f64::from(number) - 0.5 - 0.5 * f64::from(links)));
        rig.add_line(format!("link {number}"), &[last, joint], link / (1.0 + tension / stiffness), stiffness).unwrap();
        if 2 * number == links {
            middle = joint;
        }
        last = joint;
    }
    let place = at_rest(&rig).point(middle).unwrap().at;
    near(place.x, 500.0, 0.01);
    near(place.y, 44.42, 0.01);
    near(place.z, -44.42, 0.01);
}

/// S17. The same suite: level 1200, w 1, c 4000.
#[test]
fn a_long_overhead_line_pulls_as_published() {
    // The digits that the length is printed with leave 2e-4 of the pull open, and a line of 1e12 stretches by as much as
    // lowers it by 2e-3: the length in full, and a stiffer line, give the pull as it is printed.
    let length = level_length(1200.0, 4000.0);
    near(length, 1204.505065, 5e-7);
    let line = span(1200.0, 0.0, length, 1e4 * INEXTENSIBLE, 1.0);
    near(line.end, 4045.084438, 1e-6);
    near(line.end - line.horizontal, 45.08438, 1e-4);
    near(line.length, 1204.505065, 1e-6);
}

/// S19. Open mooring-line test file of a US national laboratory.
#[test]
fn a_slack_mooring_line_pulls_as_published() {
    let line = span(400.0, 200.0, 500.0, 7.51e12, 200.0);
    near(line.horizontal, 43_694.58, 0.1);
    near(line.vertical_first, -22_365.60, 0.1);
    near(line.vertical_last, -77_634.40, 0.1);
}

/// S20. The same file.
#[test]
fn a_taut_mooring_line_pulls_as_published() {
    let line = span(246.22420940032947, 263.55766330843164, 360.64566262396927, 7e8, 3.08735);
    near(line.horizontal, 46_077.1, 0.5);
    near(line.vertical_first.abs(), 48_765.2, 0.5);
    near(line.vertical_last.abs(), 49_878.6, 0.5);
}

/// Lines side by side between an anchor and a load.
fn side_by_side(stiffnesses: &[f64], load: f64) -> Vec<f64> {
    let mut rig = Rig::new();
    let anchor = rig.add_held("anchor", [0.0, 0.0, 0.0]).unwrap();
    let point = rig.add_free("load", [0.0, 0.0, -1.0], [0.0, 0.0, -load]).unwrap();
    for (number, &stiffness) in stiffnesses.iter().enumerate() {
        rig.add_line(format!("wire {number}"), &[anchor, point], 1.0, stiffness).unwrap();
    }
    at_rest(&rig).lines.iter().map(|line| line.tension()).collect()
}

/// S21. Timoshenko, *Strength of Materials I*, page 30, problem 9, mechanical part (derived).
#[test]
fn a_steel_wire_between_two_of_copper_takes_its_share() {
    let tensions = side_by_side(&[16e5, 30e5, 16e5], 4000.0);
    near(tensions[1] / 4000.0, 0.48387, 1e-5);
}

/// S22. Gere, *Mechanics of Materials*, problem 2.4-10: steel governs at P = 1504 N.
#[test]
fn steel_wires_reach_their_limit_first() {
    let area = |millimetres: f64| std::f64::consts::PI / 4.0 * (millimetres * 1e-3).powi(2);
    let (steel, aluminium) = (210e9 * area(2.0), 70e9 * area(4.0));
    let tensions = side_by_side(&[steel, aluminium, steel], 800.0 + 1504.0);
    // One newton more or less moves the stress in steel by 0.1 MPa.
    near(tensions[0] / area(2.0) / 1e6, 220.0, 0.1);
    assert!(tensions[1] / area(4.0) < 80e6);
}

/// S23. Derived: both anchors on one side of the load line, 10° and 40° from it.
#[test]
fn the_leg_farther_from_the_load_line_goes_slack() {
    let direction = |degrees: f64| [degrees.to_radians().sin(), 0.0, degrees.to_radians().cos()];
    let rest = hung_from(&[direction(10.0), direction(40.0)], [0.0, 0.0, -1000.0]);
    near(rest.lines[0].tension(), 1000.0, 1e-6);
    assert!(rest.lines[1].slack);
    assert_eq!(rest.lines[1].tension(), 0.0);
}
