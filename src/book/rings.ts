/** The strongly connected parts of a directed graph, each before every part that it leads to. A part of one node is
 *  given too. `next[i]` are the nodes that node i leads to; `among(i)` says which nodes count.
 *  Without recursion, so that a chain of any length is safe; time grows with nodes and edges.
 *  Source: R. Tarjan, "Depth-first search and linear graph algorithms", SIAM J. Comput. 1 (1972), 146-160. */
export function rings(
  next: readonly (readonly number[])[],
  among: (node: number) => boolean,
): readonly (readonly number[])[] {
  const order = new Int32Array(next.length).fill(-1);
  const lowest = new Int32Array(next.length);
  const onStack = new Uint8Array(next.length);
  const stack: number[] = [];
  const found: number[][] = [];
  let count = 0;

  const enter = (node: number): Visit => {
    order[node] = count;
    lowest[node] = count;
    count += 1;
    stack.push(node);
    onStack[node] = 1;
    return { node, edges: next[node].filter(among), edge: 0 };
  };
  const lower = (node: number, to: number): void => {
    lowest[node] = Math.min(lowest[node], to);
  };

  for (let root = 0; root < next.length; root += 1) {
    if (order[root] !== -1 || !among(root)) continue;
    const path = [enter(root)];
    for (let visit = path.at(-1); visit !== undefined; visit = path.at(-1)) {
      if (visit.edge < visit.edges.length) {
        const target = visit.edges[visit.edge];
        visit.edge += 1;
        if (order[target] === -1) path.push(enter(target));
        else if (onStack[target] === 1) lower(visit.node, order[target]);
        continue;
      }
      path.pop();
      const parent = path.at(-1);
      if (parent !== undefined) lower(parent.node, lowest[visit.node]);
      if (lowest[visit.node] !== order[visit.node]) continue;
      const ring = stack.splice(stack.lastIndexOf(visit.node));
      for (const node of ring) onStack[node] = 0;
      found.push(ring);
    }
  }
  return found.reverse();
}

interface Visit {
  readonly node: number;
  readonly edges: readonly number[];
  edge: number;
}
