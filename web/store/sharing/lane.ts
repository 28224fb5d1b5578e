/** Work on one hull after another. A hull that is asked for while it waits is not asked for twice. */
export class Lane<Task extends string> {
  readonly #wanted = new Map<string, Set<Task>>();
  #wake: (() => void) | undefined;
  #busy = false;

  /** Asks for a task on a hull; `first`: before what waits already, because somebody is at it now. */
  want(hull: string, task: Task, first = false): void {
    const tasks = this.#wanted.get(hull) ?? new Set();
    tasks.add(task);
    if (first) {
      const others = [...this.#wanted].filter(([key]) => key !== hull);
      this.#wanted.clear();
      this.#wanted.set(hull, tasks);
      for (const [key, value] of others) this.#wanted.set(key, value);
    } else {
      this.#wanted.set(hull, tasks);
    }
    this.#wake?.();
  }

  /** Whether nothing waits and nothing is being done. */
  get idle(): boolean {
    return !this.#busy && this.#wanted.size === 0;
  }

  clear(): void {
    this.#wanted.clear();
  }

  /** Works until it is called off. Rejects with what a task rejects with; what waits is kept. */
  async work(
    run: (hull: string, tasks: ReadonlySet<Task>) => Promise<void>,
    signal: AbortSignal,
  ): Promise<void> {
    while (!signal.aborted) {
      const next = this.#wanted.entries().next();
      if (next.done === true) {
        await this.#woken(signal);
        continue;
      }
      const [hull, tasks] = next.value;
      this.#wanted.delete(hull);
      this.#busy = true;
      try {
        await run(hull, tasks);
      } finally {
        this.#busy = false;
      }
    }
  }

  #woken(signal: AbortSignal): Promise<void> {
    return new Promise((resolve) => {
      const done = (): void => {
        this.#wake = undefined;
        signal.removeEventListener('abort', done);
        resolve();
      };
      this.#wake = done;
      signal.addEventListener('abort', done);
    });
  }
}
