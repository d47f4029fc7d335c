//! One branch of the search: what has to be walked, the least pairing with it, and what that leaves
//! apart.

use super::route::Route;
use crate::graph::pairs::{are_few, paired};
use crate::graph::sets::{root, unite};
use crate::graph::ways::Roads;

/// A line between two vertices.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Edge {
    pub(crate) ends: [usize; 2],
    pub(crate) length: f64,
}

/// What is to be walked, and what may be.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Net {
    /// How many vertices there are.
    pub(crate) vertices: usize,
    /// What has to be walked.
    pub(crate) edges: Vec<Edge>,
    /// What may be walked besides.
    pub(crate) links: Vec<Edge>,
}

/// Where the walk starts and ends; `None` for the best vertex.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Ends {
    pub(crate) start: Option<usize>,
    pub(crate) end: Option<usize>,
}

/// What a branch asks for. Links have their numbers; the way from a vertex to the hub has the
/// number of the vertex after them.
#[derive(Debug, Clone, Default)]
pub(super) struct State {
    required: Vec<usize>,
    banned: Vec<usize>,
}

/// The least pairing of a branch.
#[derive(Debug, Clone)]
pub(super) struct Relaxed {
    state: State,
    pub(super) cost: f64,
    /// No walk of the branch costs less.
    pub(super) lower: f64,
    again: Vec<bool>,
    links: Vec<u8>,
    hubs: Vec<u8>,
    /// The vertices where walks have a free end.
    alone: Vec<usize>,
    /// The set that each vertex belongs to, the hub as the last; what isn't in its set is apart.
    sets: Vec<usize>,
}

pub(super) struct Work<'a> {
    net: &'a Net,
    given: [Option<usize>; 2],
    /// Half the price of a cut.
    half: Option<f64>,
    /// Whether each vertex has an odd number of ends, those of the walk that are given counted.
    odd: Vec<bool>,
    /// The number of edge ends at each vertex.
    degree: Vec<u32>,
    /// Costs that differ by less are the same.
    pub(super) slack: f64,
    /// Links and, after them, cuts, in the order of what they cost twice.
    by_cost: Vec<usize>,
}

impl<'a> Work<'a> {
    pub(super) fn new(net: &'a Net, ends: Ends, cut: Option<f64>) -> Self {
        let mut odd = vec![false; net.vertices + 1];
        let mut degree = vec![0; net.vertices];
        for edge in &net.edges {
            for end in edge.ends {
                odd[end] ^= true;
                degree[end] += 1;
            }
        }
        let given = [ends.start, ends.end];
        for end in given.into_iter().flatten() {
            odd[end] ^= true;
        }
        let lines = net.edges.iter().chain(&net.links);
        let sum: f64 = lines.map(|line| line.length).sum();
        let price = cut.unwrap_or(0.0);
        let mut by_cost: Vec<usize> = (0..net.links.len()).collect();
        by_cost.sort_by(|&a, &b| net.links[a].length.total_cmp(&net.links[b].length));
        Self {
            net,
            given,
            half: cut.map(|cut| cut / 2.0),
            odd,
            degree,
            slack: 1e-9 * (sum + price),
            by_cost,
        }
    }

    fn hub(&self) -> usize {
        self.net.vertices
    }

    /// The least pairing with what a branch asks for; none where that can't be.
    pub(super) fn relaxed(&self, state: State, left: &mut u64) -> Option<Relaxed> {
        let (net, hub) = (self.net, self.hub());
        let mut odd = self.odd.clone();
        let mut at = Relaxed {
            cost: 0.0,
            lower: 0.0,
            again: vec![false; net.edges.len()],
            links: vec![0; net.links.len()],
            hubs: vec![0; net.vertices],
            alone: Vec::new(),
            sets: Vec::new(),
            state,
        };
        for &name in &at.state.required {
            match name.checked_sub(net.links.len()) {
                None => {
                    at.links[name] += 1;
                    for end in net.links[name].ends {
                        odd[end] ^= true;
                    }
                }
                Some(vertex) => {
                    at.hubs[vertex] += 1;
                    odd[vertex] ^= true;
                    odd[hub] ^= true;
                }
            }
        }
        let odd: Vec<usize> = (0..=hub).filter(|&at| odd[at]).collect();
        let mut banned = vec![false; net.links.len() + net.vertices];
        at.state.banned.iter().for_each(|&name| banned[name] = true);
        // With many vertices each would look through all that the hub leads to.
        let few = are_few(odd.len(), net.edges.len() + net.links.len() + net.vertices);
        let lines = self.lines(&banned, few);
        let roads = Roads::new(
            hub + 1,
            lines.iter().map(|&(_, ends, length)| (ends, length)),
        );
        let free = self.given.iter().filter(|end| end.is_none()).count();
        let [many, long] = [odd.len(), lines.len()].map(|count| count as u64);
        *left = match few {
            true => left.saturating_sub(many * (long + many * many / 4 + 1)),
            false => 0,
        };
        let pairs = paired(&roads, &odd, free, Some(hub))?;
        let mut length = 0.0;
        for pair in &pairs.pairs {
            length += pair.length;
            pair.lines.iter().for_each(|&line| at.walk(lines[line].0));
        }
        at.alone = pairs.alone;
        self.joined(&mut at);
        at.lower = (at.cost - (length - pairs.lower)).max(0.0);
        Some(at)
    }

    /// All that can be walked, by the hub where that is asked for: what it is, its ends and its
    /// length.
    fn lines(&self, banned: &[bool], by_hub: bool) -> Vec<(Line, [usize; 2], f64)> {
        let (net, hub) = (self.net, self.hub());
        let mut lines = Vec::with_capacity(net.edges.len() + net.links.len());
        for (at, edge) in net.edges.iter().enumerate() {
            lines.push((Line::Edge(at), edge.ends, edge.length));
        }
        for (at, link) in net.links.iter().enumerate() {
            if !banned[at] {
                lines.push((Line::Link(at), link.ends, link.length));
            }
        }
        let half = self.half.filter(|_| by_hub).into_iter();
        lines.extend(half.flat_map(|half| {
            let vertices = (0..net.vertices)
                .filter(|&at| self.degree[at] > 0 && !banned[net.links.len() + at]);
            vertices.map(move |at| (Line::Hub(at), [at, hub], half))
        }));
        lines
    }

    /// What hangs together with this pairing, and what it costs.
    fn joined(&self, at: &mut Relaxed) {
        let links = self.net.links.iter().zip(&at.links);
        let links = links.map(|(link, &times)| f64::from(times) * link.length);
        let hubs = at.hubs.iter().map(|&times| f64::from(times));
        let again = self.net.edges.iter().zip(&at.again);
        let again = again.map(|(edge, &again)| if again { edge.length } else { 0.0 });
        at.cost =
            links.sum::<f64>() + hubs.sum::<f64>() * self.half.unwrap_or(0.0) + again.sum::<f64>();
        at.sets = self.sets(&at.alone, &at.links, &at.hubs);
    }

    /// The set that each vertex belongs to, the hub as the last: edges, links and ways to the hub
    /// unite, and the hub is where walks end.
    fn sets(&self, alone: &[usize], links: &[u8], hubs: &[u8]) -> Vec<usize> {
        let (net, hub) = (self.net, self.hub());
        let mut sets: Vec<usize> = (0..=hub).collect();
        for &vertex in alone {
            unite(&mut sets, [vertex, hub]);
        }
        for edge in &net.edges {
            unite(&mut sets, edge.ends);
        }
        for (link, _) in net.links.iter().zip(links).filter(|(_, times)| **times > 0) {
            unite(&mut sets, link.ends);
        }
        for (vertex, _) in hubs.iter().enumerate().filter(|(_, times)| **times > 0) {
            unite(&mut sets, [vertex, hub]);
        }
        for end in self.given.into_iter().flatten() {
            unite(&mut sets, [end, hub]);
        }
        let anchored = (0..hub).any(|vertex| root(&mut sets, vertex) == root(&mut sets, hub));
        if !anchored && let Some(edge) = net.edges.first() {
            unite(&mut sets, [edge.ends[0], hub]);
        }
        (0..=hub).map(|vertex| root(&mut sets, vertex)).collect()
    }

    /// The branch that joins all parts by the shortest links, each walked once at least; none where
    /// nothing is apart.
    pub(super) fn spanning(&self) -> Option<State> {
        let none = vec![0; self.net.links.len()];
        let sets = self.sets(&[], &none, &[]);
        let price = self.half.map_or(f64::INFINITY, |half| 2.0 * half);
        let required = self.joining(sets, &none, price).0;
        let state = State {
            required,
            ..State::default()
        };
        (!state.required.is_empty()).then_some(state)
    }

    /// Links below this length that join sets, the shortest first, and what that makes of the sets;
    /// these links are walked already.
    fn joining(&self, mut sets: Vec<usize>, walked: &[u8], price: f64) -> (Vec<usize>, Vec<usize>) {
        let net = self.net;
        let mut taken = vec![false; net.links.len()];
        // Of vertices that nothing has to be walked at, the links that are; those that only lead
        // there are left out again.
        let mut around: Vec<Vec<usize>> = vec![Vec::new(); net.vertices];
        let on_the_way =
            |vertex: usize| self.degree[vertex] == 0 && !self.given.contains(&Some(vertex));
        for &name in &self.by_cost {
            let link = net.links[name];
            taken[name] = walked[name] == 0 && link.length < price && unite(&mut sets, link.ends);
            if taken[name] || walked[name] > 0 {
                let ends = link.ends.into_iter().filter(|&end| on_the_way(end));
                ends.for_each(|end| around[end].push(name));
            }
        }
        let mut open: Vec<usize> = (0..net.vertices)
            .filter(|&at| around[at].len() == 1)
            .collect();
        while let Some(at) = open.pop() {
            let Some(name) = around[at].pop().filter(|&name| taken[name]) else {
                continue;
            };
            taken[name] = false;
            for end in net.links[name].ends {
                around[end].retain(|&other| other != name);
                if around[end].len() == 1 {
                    open.push(end);
                }
            }
        }
        let names = self.by_cost.iter().copied();
        (names.filter(|&name| taken[name]).collect(), sets)
    }

    /// The branches for a part that is apart: a way out of it that is walked, those before it
    /// banned. None where all hangs together.
    pub(super) fn branches(&self, at: &Relaxed) -> Option<Vec<State>> {
        let (net, hub) = (self.net, self.hub());
        let main = at.sets[hub];
        let apart = |vertex: usize| self.degree[vertex] > 0 && at.sets[vertex] != main;
        let mut ways_out = vec![0_usize; hub + 1];
        for link in &net.links {
            let [a, b] = link.ends.map(|end| at.sets[end]);
            if a != b {
                ways_out[a] += 1;
                ways_out[b] += 1;
            }
        }
        let sets = (0..hub)
            .filter(|&vertex| apart(vertex))
            .map(|vertex| at.sets[vertex]);
        let set = sets.min_by_key(|&set| (ways_out[set], set))?;
        let mut names: Vec<(f64, usize)> = Vec::new();
        let mut hubs = vec![false; hub];
        for (name, link) in net.links.iter().enumerate() {
            let [a, b] = link.ends.map(|end| at.sets[end] == set);
            if a != b {
                names.push((link.length, name));
            }
            for end in link.ends {
                hubs[end] |= at.sets[end] == set;
            }
        }
        if let Some(half) = self.half {
            let mut within = (0..hub).filter(|&v| at.sets[v] == set && self.degree[v] > 0);
            let first = within.clone().next();
            within
                .by_ref()
                .for_each(|v| hubs[v] |= self.odd[v] || Some(v) == first);
            let ways = (0..hub).filter(|&v| hubs[v] && self.degree[v] > 0);
            names.extend(ways.map(|v| (half, net.links.len() + v)));
        }
        names.retain(|(_, name)| !at.state.banned.contains(name));
        names.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let branch = |(index, &(_, name)): (usize, &(f64, usize))| {
            let mut state = at.state.clone();
            state.required.push(name);
            state
                .banned
                .extend(names[..index].iter().map(|(_, name)| name));
            state
        };
        Some(names.iter().enumerate().map(branch).collect())
    }

    /// The walk of a pairing, what is apart joined by links there and back, or cut off, whichever
    /// costs less.
    pub(super) fn completed(&self, at: &Relaxed) -> Option<Route> {
        let kept = self.joined_by(at, at.links.clone());
        if !at.links.contains(&2) {
            return kept;
        }
        // A link that is walked there and back only joins; a shorter one may do that.
        let others = at.links.iter().map(|&times| times % 2).collect();
        let routes = kept.into_iter().chain(self.joined_by(at, others));
        routes.min_by(|a, b| a.cost.total_cmp(&b.cost))
    }

    /// The walk of a pairing with these links, others joining what is apart.
    fn joined_by(&self, at: &Relaxed, mut links: Vec<u8>) -> Option<Route> {
        let hub = self.hub();
        let sets = self.sets(&at.alone, &links, &at.hubs);
        // A cut costs as much as two ways along half of it.
        let price = self.half.unwrap_or(f64::INFINITY);
        let (joining, mut sets) = self.joining(sets, &links, price);
        joining.iter().for_each(|&name| links[name] = 2);
        let main = root(&mut sets, hub);
        let whole = (0..hub).all(|v| self.degree[v] == 0 || root(&mut sets, v) == main);
        if !whole && self.half.is_none() {
            return None;
        }
        Some(self.route(at.again.clone(), links))
    }

    /// The walk that walks lines so often.
    fn route(&self, again: Vec<bool>, links: Vec<u8>) -> Route {
        let net = self.net;
        let mut sets: Vec<usize> = (0..net.vertices).collect();
        let mut degree = self.degree.clone();
        let mut added = 0.0;
        for (edge, &again) in net.edges.iter().zip(&again) {
            unite(&mut sets, edge.ends);
            if again {
                added += edge.length;
                for end in edge.ends {
                    degree[end] += 1;
                }
            }
        }
        for (link, &times) in net.links.iter().zip(&links) {
            if times > 0 {
                unite(&mut sets, link.ends);
                added += f64::from(times) * link.length;
                for end in link.ends {
                    degree[end] += u32::from(times);
                }
            }
        }
        let mut ends: Vec<usize> = (0..net.vertices).filter(|&v| degree[v] % 2 == 1).collect();
        // An end that is given and not met is an end all the same: there the thread is cut.
        let mut all_ends = vec![0; net.vertices];
        for end in self.given.into_iter().flatten() {
            degree[end] += 1;
            all_ends[root(&mut sets, end)] += 1;
        }
        for v in 0..net.vertices {
            all_ends[root(&mut sets, v)] += degree[v] % 2;
        }
        let mut open = vec![false; net.vertices];
        for &end in &ends {
            open[root(&mut sets, end)] = true;
        }
        // A closed walk starts where it is to, or else where the first of its edges does.
        let given = self.given.into_iter().flatten();
        let starts = given.chain(net.edges.iter().map(|edge| edge.ends[0]));
        let mut walks = 0;
        let mut counted = vec![false; net.vertices];
        for start in starts {
            let set = root(&mut sets, start);
            if !std::mem::replace(&mut open[set], true) {
                ends.extend([start; 2]);
            }
            if !std::mem::replace(&mut counted[set], true) {
                walks += (all_ends[set] / 2).max(1) as usize;
            }
        }
        let cuts = walks.saturating_sub(1);
        let cost = added + cuts as f64 * self.half.map_or(0.0, |half| 2.0 * half);
        Route {
            again,
            links,
            ends,
            cuts,
            cost,
            lower: cost,
        }
    }
}

#[derive(Debug, Clone, Copy)]
enum Line {
    Edge(usize),
    Link(usize),
    Hub(usize),
}

impl Relaxed {
    /// Walks a line once more; a third time is none.
    fn walk(&mut self, line: Line) {
        match line {
            Line::Edge(at) => self.again[at] ^= true,
            Line::Link(at) => self.links[at] = once_more(self.links[at]),
            Line::Hub(at) => self.hubs[at] = once_more(self.hubs[at]),
        }
    }
}

fn once_more(times: u8) -> u8 {
    if times < 2 { times + 1 } else { 1 }
}
