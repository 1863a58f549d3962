/** Disjoint sets over 0 to n − 1; the representative is the least of its set, so that nothing depends on the order of joining. */
export class Union {
  private readonly parent: Int32Array;

  constructor(n: number) {
    this.parent = Int32Array.from({ length: n }, (_, i) => i);
  }

  find(i: number): number {
    let root = i;
    while (this.parent[root] !== root) root = this.parent[root];
    while (this.parent[i] !== root) [i, this.parent[i]] = [this.parent[i], root];
    return root;
  }

  join(i: number, j: number): void {
    const [a, b] = [this.find(i), this.find(j)];
    if (a !== b) this.parent[Math.max(a, b)] = Math.min(a, b);
  }

  /** The sets, each in order, in the order of their least. */
  sets(): number[][] {
    const out = new Map<number, number[]>();
    for (let i = 0; i < this.parent.length; i++) {
      const root = this.find(i);
      const set = out.get(root);
      if (set) set.push(i);
      else out.set(root, [i]);
    }
    return [...out.values()];
  }
}
