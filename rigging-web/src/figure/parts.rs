//! The strokes of the picture: rock, water, rope, people, forces.

use super::{Point, WIDTH, n, path};
use crate::labels::Label;
use maud::{Markup, html};
use rigging_core::question::scene::{Pose, Role};

/// Radius of the arc that marks an angle.
pub const ARC: f64 = 30.0;

pub fn class(role: Role) -> &'static str {
    match role {
        Role::Load | Role::Held => "load",
        Role::OnAnchor => "on-anchor",
    }
}

pub fn heads() -> Markup {
    html! {
        defs {
            marker #head-load viewBox="0 0 10 10" refX="9" refY="5" markerWidth="5" markerHeight="5" orient="auto-start-reverse" {
                path.load-head d="M0 0 L10 5 L0 10 Z" {}
            }
            marker #head-flow viewBox="0 0 10 10" refX="9" refY="5" markerWidth="6" markerHeight="6" orient="auto-start-reverse" {
                path.flow-head d="M0 0 L10 5 L0 10 L3 5 Z" {}
            }
            marker #head-on-anchor viewBox="0 0 10 10" refX="9" refY="5" markerWidth="5" markerHeight="5" orient="auto-start-reverse" {
                path.on-anchor-head d="M0 0 L10 5 L0 10" {}
            }
        }
    }
}

pub fn force(from: Point, to: Point, role: Role) -> Markup {
    let class = class(role);
    // A short arrow is drawn thin, or its head would be longer than itself.
    let short = (to.0 - from.0).hypot(to.1 - from.1) < 24.0;
    html! {
        line class={ "force " (class) @if short { " short" } } x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) marker-end={ "url(#head-" (class) ")" } {}
    }
}

pub fn strand(from: Point, to: Point, tension: f64) -> Markup {
    if tension > 0.0 {
        return html! { line.rope x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {} };
    }
    // Slack: dashed, and sagging unless it hangs plumb.
    let level = (to.0 - from.0).abs();
    let (x, y) = ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0 + 0.4 * level);
    html! {
        path.rope.slack d={ "M" (n(from.0)) " " (n(from.1)) " Q" (n(x)) " " (n(y)) " " (n(to.0)) " " (n(to.1)) } {}
    }
}

/// Which way water flows.
pub fn flow(from: Point, to: Point) -> Markup {
    html! {
        line.flow x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) marker-end="url(#head-flow)" {}
    }
}

/// Waves of 12 along a level surface.
pub fn water(from: Point, to: Point) -> Markup {
    let waves = ((to.0 - from.0) / 12.0).clamp(1.0, 100.0) as u32;
    let waves = "q3 -4 6 0 t6 0 ".repeat(waves as usize);
    html! { path.water d={ "M" (n(from.0)) " " (n(from.1)) " " (waves) } {} }
}

/// A run cut off at the sides of the picture: WebKit counts what is drawn beyond as width of the page.
fn cut(run: &[Point]) -> Vec<Point> {
    let mut kept = Vec::new();
    for (from, to) in run.iter().zip(run.iter().skip(1)) {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let (left, right) = if dx == 0.0 {
            let inside = if (0.0..=WIDTH).contains(&from.0) { 1.0 } else { -1.0 };
            (0.0, inside)
        } else {
            let (one, other) = (-from.0 / dx, (WIDTH - from.0) / dx);
            (one.min(other).max(0.0), one.max(other).min(1.0))
        };
        if left < right {
            kept.extend([left, right].map(|share| (from.0 + share * dx, from.1 + share * dy)));
        }
    }
    kept.dedup();
    kept
}

pub fn rock(run: &[Point]) -> Markup {
    let run = &cut(run);
    html! {
        path.rock d=(path(run)) {}
        path.hatch d=(hatching(run)) {}
    }
}

/// Short strokes on the solid side of a surface: to the right of the way it runs (y points down here).
fn hatching(run: &[Point]) -> String {
    let mut strokes = String::new();
    for (from, to) in run.iter().zip(run.iter().skip(1)) {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = dx.hypot(dy);
        let steps = (length.min(2000.0) / 11.0) as u32;
        for step in 0..steps {
            let along = 11.0 * f64::from(step) + 5.0;
            let (x, y) = (from.0 + dx * along / length, from.1 + dy * along / length);
            let (u, v) = (x - 8.0 * (dy + 0.6 * dx) / length, y + 8.0 * (dx - 0.6 * dy) / length);
            strokes += &format!("M{} {} L{} {} ", n(x), n(y), n(u), n(v));
        }
    }
    strokes
}

pub fn dimension(from: Point, to: Point) -> Markup {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy).max(1e-9);
    let (u, v) = (-5.0 * dy / length, 5.0 * dx / length);
    html! {
        line.length x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {}
        @for (x, y) in [from, to] {
            line.length x1=(n(x - u)) y1=(n(y - v)) x2=(n(x + u)) y2=(n(y + v)) {}
        }
    }
}

pub fn angle((x, y): Point, from: f64, to: f64) -> Markup {
    let at = |angle: f64| (x + ARC * angle.cos(), y - ARC * angle.sin());
    let (start, end) = (at(from), at(to));
    let wide = u8::from((to - from).abs() > std::f64::consts::PI);
    html! {
        path.angle d={ "M" (n(start.0)) " " (n(start.1)) " A" (n(ARC)) " " (n(ARC)) " 0 " (wide) " 0 " (n(end.0)) " " (n(end.1)) } {}
    }
}

/// A person drawn in a few strokes; the rope meets the person at the given place.
pub fn figure_of(pose: Pose, (x, y): Point) -> Markup {
    let path = match pose {
        Pose::Hanging => "M0 0 L-3 -13 M0 0 L8 6 L4 17 M0 0 L9 2 L10 14 M-2 -9 L2 0 L3 -8",
        Pose::Seated => "M0 0 L-6 6 L-9 -12 M-6 6 L5 2 L14 8 M-8 -6 L0 0",
        Pose::Standing => "M0 0 L-3 -14 M0 0 L5 14 L6 28 M0 0 L-5 14 L-9 28 M-2 -9 L4 -1",
    };
    let head = match pose {
        Pose::Hanging => (-4.0, -18.0),
        Pose::Seated => (-10.0, -17.0),
        Pose::Standing => (-3.0, -19.0),
    };
    html! {
        g.person transform={ "translate(" (n(x)) " " (n(y)) ")" } {
            path d=(path) {}
            circle cx=(n(head.0)) cy=(n(head.1)) r="5" {}
        }
    }
}

pub fn text(label: &Label) -> Markup {
    html! {
        @if let Some((from, to)) = label.lead() { line.leader x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {} }
        text class={ "words " (label.class) } x=(n(label.at.0)) y=(n(label.at.1 + 5.0)) text-anchor="middle" { (label.text) }
    }
}

/// A line of the position before.
pub fn faint(from: Point, to: Point) -> Markup {
    html! { line.ghost x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {} }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rock_is_cut_at_the_sides_of_the_picture() {
        let run = [(-60.0, 10.0), (60.0, 10.0), (60.0, 500.0), (480.0, 80.0)];
        assert_eq!(cut(&run), [(0.0, 10.0), (60.0, 10.0), (60.0, 500.0), (360.0, 200.0)]);
        assert_eq!(cut(&[(-5.0, 0.0), (-5.0, 9.0)]), []);
    }
}
