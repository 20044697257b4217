/**
 * Networks of conductances solved node by node: a node's star is replaced by the mesh between its neighbours ("A new
 * network theorem", Journal of the Institution of Electrical Engineers 62, 1924). Conductances to the reference are
 * carried as such and never found by subtraction ("Regenerative analysis and steady state distributions for Markov
 * chains", Operations Research 33, 1985, DOI 10.1287/opre.33.5.1107), so that every number is a sum of products of
 * positive ones: each conductance, and each answer to positive currents, is right to its own last digits however far
 * apart the conductances lie.
 */

interface Eliminated {
  readonly node: number;
  readonly total: number;
  readonly neighbours: readonly (readonly [number, number])[];
}

export class StarMesh {
  private readonly links: Map<number, number>[];
  private readonly ground: Float64Array;
  private readonly steps: Eliminated[] = [];

  constructor(nodes: number) {
    this.links = Array.from({ length: nodes }, () => new Map());
    this.ground = new Float64Array(nodes);
  }

  /** A conductance [S] between two nodes. */
  join(a: number, b: number, conductance: number): void {
    if (!(conductance > 0)) return;
    add(this.links[a]!, b, conductance);
    add(this.links[b]!, a, conductance);
  }

  /** A conductance [S] from a node to the reference. */
  tie(node: number, conductance: number): void {
    this.ground[node]! += conductance;
  }

  /** Joins a node to the reference without resistance. */
  hold(node: number): void {
    const own = this.links[node]!;
    for (const [other, conductance] of own) {
      this.links[other]!.delete(node);
      this.tie(other, conductance);
    }
    own.clear();
  }

  /** Eliminates all nodes, those with the fewest neighbours first. */
  factor(): void {
    const { links } = this;
    const left = links.map((_, node) => node);
    while (left.length > 0) {
      let best = 0;
      for (let k = 1; k < left.length; k++) {
        if (links[left[k]!]!.size < links[left[best]!]!.size) best = k;
      }
      this.eliminate(left[best]!);
      left[best] = left.at(-1)!;
      left.pop();
    }
  }

  private eliminate(node: number): void {
    const neighbours = [...this.links[node]!];
    const ground = this.ground[node]!;
    let total = ground;
    for (const [, conductance] of neighbours) total += conductance;
    this.steps.push({ node, total, neighbours });
    for (const [k, [a, toA]] of neighbours.entries()) {
      const share = toA / total;
      const own = this.links[a]!;
      own.delete(node);
      this.ground[a]! += share * ground;
      for (let l = k + 1; l < neighbours.length; l++) {
        const [b, toB] = neighbours[l]!;
        add(own, b, share * toB);
        add(this.links[b]!, a, share * toB);
      }
    }
  }

  /**
   * @param currents into every node [A]; overwritten by the voltages against the reference [V], 0 at nodes held
   *   or joined to nothing
   */
  solve(currents: Float64Array): void {
    for (const { node, total, neighbours } of this.steps) {
      const own = currents[node]!;
      for (const [other, conductance] of neighbours)
        currents[other]! += (conductance / total) * own;
    }
    for (let k = this.steps.length - 1; k >= 0; k--) {
      const { node, total, neighbours } = this.steps[k]!;
      let sum = currents[node]!;
      for (const [other, conductance] of neighbours) sum += conductance * currents[other]!;
      currents[node] = total > 0 ? sum / total : 0;
    }
  }
}

function add(links: Map<number, number>, to: number, conductance: number): void {
  links.set(to, (links.get(to) ?? 0) + conductance);
}
