import type { Remark } from '../../src/survey/assessment.ts';

/** Remarks in words, each said once: what holds of several lines names them all. */
export function remarkWords(remarks: readonly Remark[]): readonly string[] {
  const named = new Map<string, string[]>();
  for (const { words, line } of remarks) {
    const of = line === undefined ? undefined : /^([^\s:]+): (.+)$/s.exec(words);
    const rest = of?.[2] ?? words;
    const names = named.get(rest) ?? [];
    if (of?.[1] !== undefined && !names.includes(of[1])) names.push(of[1]);
    named.set(rest, names);
  }
  return [...named].map(([rest, names]) =>
    names.length === 0 ? rest : `${names.join(', ')}: ${rest}`,
  );
}
