//! How far an answer can be from the truth.
//!
//! A state whose forces do not quite balance, by `r` at each free point, is the exact equilibrium of
//! loads `f − r`. Convexity of the energy then gives, for the true state `*`,
//! `Σ (T − T*)²/k ≤ r·(x* − x) ≤ D Σ |r|`, with `k = EA/L0` and `D` the farthest a free point can be
//! from its true place: there and back along its lines to a held point.

use super::energy::State;
use super::model::{FIXED, Model};
use super::Vector;

/// Bound `E` (J) on `Σ (T − T*)²/k`.
#[expect(clippy::indexing_slicing, reason = "indices come from the model")]
pub(super) fn energy_bound(model: &Model, state: &State) -> f64 {
    let left: f64 = model.free_nodes.iter().map(|&node| state.force[node as usize].norm()).sum();
    if left == 0.0 {
        return 0.0;
    }
    let (reach, give) = farthest(model, state);
    // D ≤ 2 reach + give √E and E ≤ D left: a quadratic in √D.
    let slope = give * left.sqrt();
    let root = 0.5 * (slope + (slope * slope + 8.0 * reach).sqrt());
    root * root * left
}

/// Over all free points, the longest of the shortest ways to a held point: its length (m), and the
/// sum of `1/√k` of the lines along it.
#[expect(clippy::indexing_slicing, reason = "indices come from the model")]
fn farthest(model: &Model, state: &State) -> (f64, f64) {
    // A line is one hop between any two of its nodes, at its whole length.
    let hops = model.cords.len() + model.hanging.len();
    let mut lines: Vec<(&[u32], f64, f64)> = Vec::with_capacity(hops);
    for (index, cord) in model.cords.iter().enumerate() {
        let nodes = &model.touched[cord.touched.clone()];
        let length = state.reaches[index].max(cord.length);
        lines.push((nodes, length, 1.0 / cord.spring.sqrt()));
    }
    let ends: Vec<[u32; 2]> = model.hanging.iter().map(|line| [line.from, line.to]).collect();
    for ((line, ends), pull) in model.hanging.iter().zip(&ends).zip(&state.pulls) {
        let length = match pull {
            Some(pull) => line.catenary.stretched(pull.middle),
            None => line.catenary.length,
        };
        lines.push((ends, length, line.catenary.compliance.sqrt()));
    }
    let count = model.free.len();
    let mut at_node: Vec<Vec<u32>> = vec![Vec::new(); count];
    for (index, (nodes, ..)) in lines.iter().enumerate() {
        for &node in *nodes {
            at_node[node as usize].push(index as u32);
        }
    }
    let mut way: Vec<Option<(f64, f64)>> = model
        .free
        .iter()
        .map(|&free| (free == FIXED).then_some((0.0, 0.0)))
        .collect();
    let mut used = vec![false; lines.len()];
    let mut queue: std::collections::VecDeque<usize> =
        (0..count).filter(|&node| way[node].is_some()).collect();
    let mut next_seed = 0;
    let (mut longest, mut softest): (f64, f64) = (0.0, 0.0);
    loop {
        while let Some(node) = queue.pop_front() {
            let (length, give) = way[node].unwrap_or_default();
            longest = longest.max(length);
            softest = softest.max(give);
            for &line in &at_node[node] {
                if std::mem::replace(&mut used[line as usize], true) {
                    continue;
                }
                let (nodes, own_length, own_give) = lines[line as usize];
                for &other in nodes {
                    if way[other as usize].is_none() {
                        way[other as usize] = Some((length + own_length, give + own_give));
                        queue.push_back(other as usize);
                    }
                }
            }
        }
        // A group without anchor bears no load: it may be measured from any of its points.
        match (next_seed..count).find(|&node| way[node].is_none()) {
            Some(seed) => {
                way[seed] = Some((0.0, 0.0));
                queue.push_back(seed);
                next_seed = seed + 1;
            }
            None => return (longest, softest),
        }
    }
}

/// Largest force left over as a share of the largest load or tension; 0 if there is neither.
pub(super) fn imbalance(model: &Model, state: &State) -> f64 {
    let (residual, scale): (f64, f64) = (state.residual(model), state.scale(model));
    if residual == 0.0 {
        return 0.0;
    }
    residual / scale
}

/// Whether every number of a state is finite.
pub(super) fn is_finite(state: &State) -> bool {
    let vectors = |list: &[Vector]| list.iter().all(|vector| vector.iter().all(|entry| entry.is_finite()));
    vectors(&state.at)
        && vectors(&state.force)
        && state.tensions.iter().chain(&state.reaches).all(|entry| entry.is_finite())
}
