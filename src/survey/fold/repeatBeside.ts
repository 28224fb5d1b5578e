/** A laying of the edge by the name and the repeat that it was stated with. */
interface Named {
  readonly name: string;
  readonly repeat: number;
}

/** The repeat that a laying bears beside others of its place: as stated, unless one of its name bears that already, which
 *  is then its `twin`. So that nothing is lost it becomes one repeat more than any that stands or was stated.
 *  `beside`: layings before it; `stated`: all of the place, itself among them. */
export function repeatBeside(
  own: Named,
  beside: readonly (Named & { readonly id: string })[],
  stated: readonly Named[],
): { readonly repeat: number; readonly twin?: string } {
  const twins = beside.filter(({ name }) => name === own.name);
  const twin = twins.find(({ repeat }) => repeat === own.repeat);
  if (twin === undefined) return { repeat: own.repeat };
  const taken = [...twins, ...stated.filter(({ name }) => name === own.name)];
  return { repeat: Math.max(...taken.map(({ repeat }) => repeat)) + 1, twin: twin.id };
}
