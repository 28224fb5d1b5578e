/** How the app's modules are put into files. Left alone the bundler makes some 160, many of less than a kilobyte, and on a
 *  slow network each costs a wait. What the page needs at its start is one file beside the entry; of what later parts
 *  share, the small goes with what is needed at nearly the same places.
 *  entry: the path of the module that the page names. */
export function chunks(entry: string) {
  let atStart: ReadonlySet<string> | undefined;
  return {
    groups: [
      {
        debugName: 'start',
        name: (id: string, modules: Modules): string | null => {
          atStart ??= reached(entry, modules);
          return id !== entry && atStart.has(id) ? 'start' : null;
        },
        priority: 1,
      },
      {
        name: 'shared',
        minShareCount: 2,
        entriesAware: true,
        entriesAwareMergeThreshold: 20_000,
      },
    ],
  };
}

interface Modules {
  getModuleInfo(id: string): { readonly importedIds: readonly string[] } | null;
}

/** Every module that one imports, itself or by others, not counting what it loads later. */
function reached(entry: string, modules: Modules): ReadonlySet<string> {
  const found = new Set([entry]);
  for (const id of found) {
    for (const next of modules.getModuleInfo(id)?.importedIds ?? []) found.add(next);
  }
  return found;
}
