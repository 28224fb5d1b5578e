import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const textOf = (path: string): string =>
  readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

interface Facts {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
}

/** Packages of a lock file that name the address they came from. */
function addressesIn(lock: string): string[] {
  return [...lock.matchAll(/"resolved":\s*"([^"]*)"/g)].map(([, address]) => address);
}

/** Names that have no line of their own ("- `name`: why") under the heading "Dependencies". */
function unexplained(names: readonly string[], text: string): string[] {
  const section = /^## Dependencies$([\s\S]*?)(?=^## |(?![\s\S]))/m.exec(text)?.[1] ?? '';
  const explained = [...section.matchAll(/^- (`.+)$/gm)].flatMap(([, line]) => {
    const [head = '', why = ''] = line.split(/:(.*)/);
    return why.trim() === '' ? [] : [...head.matchAll(/`([^`]+)`/g)].map(([, name]) => name);
  });
  return names.filter((name) => !explained.includes(name));
}

describe('the packages', () => {
  const facts = JSON.parse(textOf('package.json')) as Facts;
  const direct = { ...facts.dependencies, ...facts.devDependencies };

  test('are locked without naming the host of a registry', () => {
    expect(addressesIn(textOf('package-lock.json'))).toEqual([]);
    expect(addressesIn('{ "resolved": "https://host.invalid/a.tgz" }')).toHaveLength(1);
  });

  test('are each of one exact version', () => {
    const loose = Object.entries(direct).filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version));
    expect(loose).toEqual([]);
  });

  test('each have a line in DEVELOPERS.md that says what for', () => {
    expect(unexplained(Object.keys(direct), textOf('DEVELOPERS.md'))).toEqual([]);
    const text = '## Dependencies\n- `a`, `b`: for this\n- `c`:\n## Next\n- `d`: elsewhere\n';
    expect(unexplained(['a', 'b', 'c', 'd', 'e'], text)).toEqual(['c', 'd', 'e']);
  });
});
