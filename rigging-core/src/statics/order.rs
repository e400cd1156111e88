//! In which order to eliminate the free points, so that few couplings arise.
//!
//! Minimum degree on the quotient graph: an eliminated point becomes an element that stands for
//! the clique it leaves behind, so nothing is ever filled in while ordering.
//!
//! # References
//! George & Liu, *The evolution of the minimum degree ordering algorithm*, SIAM Review 31, 1989
//! (method from memory).

/// Points up to which any order will do.
const FEW: usize = 8;

/// Writes the place of every point in the order of elimination, for `count` points and their
/// couplings, each once ([`put_in_order`]).
#[expect(clippy::indexing_slicing, reason = "every index is a point below `count`")]
pub(super) fn elimination_order(count: usize, pairs: &[(u32, u32)], place: &mut Vec<u32>) {
    place.clear();
    place.extend(0..count as u32);
    if count <= FEW {
        return;
    }
    let mut neighbours: Vec<Vec<u32>> = vec![Vec::new(); count];
    for &(a, b) in pairs {
        neighbours[a as usize].push(b);
        neighbours[b as usize].push(a);
    }
    // Elements share the numbering of the points whose elimination made them.
    let mut elements: Vec<Vec<u32>> = vec![Vec::new(); count];
    let mut members: Vec<Vec<u32>> = vec![Vec::new(); count];
    let mut degree: Vec<usize> = neighbours.iter().map(Vec::len).collect();
    let mut gone = vec![false; count];
    let mut buckets: Vec<Vec<u32>> = vec![Vec::new(); count + 1];
    for (point, &d) in degree.iter().enumerate() {
        buckets[d].push(point as u32);
    }
    let mut mark = vec![0_u32; count];
    let mut stamp = 0_u32;
    let mut lowest = 0;
    let mut front = Vec::new();
    for step in 0..count {
        let chosen = loop {
            match buckets[lowest].pop() {
                Some(point) if !gone[point as usize] && degree[point as usize] == lowest => {
                    break point as usize;
                }
                Some(_) => {}
                None => lowest += 1,
            }
        };
        place[chosen] = step as u32;
        gone[chosen] = true;
        // The front: everything the chosen point still touches, directly or through an element.
        stamp += 1;
        mark[chosen] = stamp;
        front.clear();
        for &point in &neighbours[chosen] {
            if !gone[point as usize] && mark[point as usize] != stamp {
                mark[point as usize] = stamp;
                front.push(point);
            }
        }
        for element in std::mem::take(&mut elements[chosen]) {
            for &point in &members[element as usize] {
                if !gone[point as usize] && mark[point as usize] != stamp {
                    mark[point as usize] = stamp;
                    front.push(point);
                }
            }
            members[element as usize] = Vec::new();
        }
        let inside = stamp;
        for &point in &front {
            let point = point as usize;
            // Couplings inside the front are now carried by the new element.
            neighbours[point].retain(|&other| !gone[other as usize] && mark[other as usize] != inside);
            elements[point].retain(|&element| !members[element as usize].is_empty());
            // An element of one point couples it to nothing; where many lines meet there would be one for each.
            if front.len() > 1 {
                elements[point].push(chosen as u32);
            }
        }
        members[chosen].clone_from(&front);
        for &point in &front {
            let point = point as usize;
            stamp += 1;
            mark[point] = stamp;
            let mut count_of = 0;
            for &other in &neighbours[point] {
                if mark[other as usize] != stamp {
                    mark[other as usize] = stamp;
                    count_of += 1;
                }
            }
            for &element in &elements[point] {
                members[element as usize].retain(|&member| !gone[member as usize]);
                for &member in &members[element as usize] {
                    if mark[member as usize] != stamp {
                        mark[member as usize] = stamp;
                        count_of += 1;
                    }
                }
            }
            degree[point] = count_of;
            buckets[count_of].push(point as u32);
            lowest = lowest.min(count_of);
        }
        neighbours[chosen] = Vec::new();
    }
}

/// Puts couplings of points below `count` in order, the larger point of each first, each once and none of a point with
/// itself. Counts in place of comparing: as fast, and no sort of the standard library is carried along.
#[expect(clippy::indexing_slicing, reason = "every index is a point below `count`")]
pub(super) fn put_in_order(pairs: &mut Vec<(u32, u32)>, count: usize) {
    pairs.retain_mut(|pair| {
        *pair = (pair.0.max(pair.1), pair.0.min(pair.1));
        pair.0 != pair.1
    });
    for by in [|pair: (u32, u32)| pair.1 as usize, |pair: (u32, u32)| pair.0 as usize] {
        let mut start = vec![0_usize; count + 1];
        for &pair in pairs.iter() {
            start[by(pair) + 1] += 1;
        }
        for place in 0..count {
            start[place + 1] += start[place];
        }
        let mut ordered = vec![(0, 0); pairs.len()];
        for &pair in pairs.iter() {
            ordered[start[by(pair)]] = pair;
            start[by(pair)] += 1;
        }
        *pairs = ordered;
    }
    pairs.dedup();
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Couplings that arise when points are eliminated in this order, one after the other.
    fn fill_in(count: usize, pairs: &[(u32, u32)], place: &[u32]) -> usize {
        let mut coupled = vec![vec![false; count]; count];
        for &(a, b) in pairs {
            let (a, b) = (place[a as usize] as usize, place[b as usize] as usize);
            (coupled[a][b], coupled[b][a]) = (true, true);
        }
        let mut arisen = 0;
        for gone in 0..count {
            let left: Vec<usize> = (gone + 1..count).filter(|&other| coupled[gone][other]).collect();
            for (at, &a) in left.iter().enumerate() {
                for &b in &left[..at] {
                    if !coupled[a][b] {
                        (coupled[a][b], coupled[b][a]) = (true, true);
                        arisen += 1;
                    }
                }
            }
        }
        arisen
    }

    /// How many couplings arise in the order found for these pairs.
    fn arisen(count: usize, pairs: &[(u32, u32)]) -> usize {
        let mut place = vec![7; 3];
        elimination_order(count, pairs, &mut place);
        let mut sorted = place.clone();
        sorted.sort_unstable();
        assert!(sorted.iter().copied().eq(0..count as u32), "{place:?} is not every place once");
        fill_in(count, pairs, &place)
    }

    #[test]
    fn chains_stars_and_trees_are_eliminated_without_a_new_coupling() {
        let chain: Vec<(u32, u32)> = (1..40).map(|point| (point, point - 1)).collect();
        let star: Vec<(u32, u32)> = (1..40).map(|point| (point, 0)).collect();
        let tree: Vec<(u32, u32)> = (1..40).map(|point| (point, (point - 1) / 3)).collect();
        let mixed: Vec<(u32, u32)> = (1..40).map(|point| ((point * 17) % 40, ((point - 1) / 2 * 17) % 40)).collect();
        for pairs in [chain, star, tree, mixed] {
            assert_eq!(arisen(40, &pairs), 0);
        }
        // A ring of n points cannot do with fewer than n − 3.
        let ring: Vec<(u32, u32)> = (0..40).map(|point| (point, (point + 1) % 40)).collect();
        assert_eq!(arisen(40, &ring), 37);
        // Points that nothing couples, and a full clique.
        assert_eq!(arisen(20, &[]), 0);
        let clique: Vec<(u32, u32)> = (0..12).flat_map(|a| (0..a).map(move |b| (a, b))).collect();
        assert_eq!(arisen(12, &clique), 0);
    }

    #[test]
    fn a_net_gets_few_new_couplings() {
        let side = 9;
        let point = |x: u32, y: u32| x * side + y;
        let mut pairs = Vec::new();
        for x in 0..side {
            for y in 0..side {
                if x > 0 {
                    pairs.push((point(x, y), point(x - 1, y)));
                }
                if y > 0 {
                    pairs.push((point(x, y), point(x, y - 1)));
                }
            }
        }
        let count = (side * side) as usize;
        let as_given: Vec<u32> = (0..count as u32).collect();
        let (found, row_by_row) = (arisen(count, &pairs), fill_in(count, &pairs, &as_given));
        // An order that leaves more is worse.
        assert!(found <= 280 && row_by_row == 512, "{found} in place of {row_by_row}");
    }

    #[test]
    fn up_to_a_handful_any_order_will_do() {
        let star: Vec<(u32, u32)> = (1..8).map(|point| (point, 0)).collect();
        let mut place = Vec::new();
        elimination_order(8, &star, &mut place);
        assert_eq!(place, [0, 1, 2, 3, 4, 5, 6, 7]);
        let star: Vec<(u32, u32)> = (1..9).map(|point| (point, 0)).collect();
        assert_eq!(arisen(9, &star), 0);
    }

    #[test]
    fn couplings_are_put_in_the_order_that_a_sort_gives() {
        let mut pairs: Vec<(u32, u32)> = (0..500_u32).map(|n| ((n * n + 3) % 23, (n * 7 + 1) % 19)).collect();
        let mut expected: Vec<(u32, u32)> =
            pairs.iter().map(|&(a, b)| (a.max(b), a.min(b))).filter(|(a, b)| a != b).collect();
        expected.sort_unstable();
        expected.dedup();
        put_in_order(&mut pairs, 23);
        assert_eq!(pairs, expected);
    }
}
