type Speaker = Pick<Console, 'warn' | 'error'>;

/** Notes every warning and error said on a console, which still says them.
 *  `expectQuiet` throws when anything was said since it was last asked. A test that expects a warning
 *  puts its own spy over `console.warn`, which then hears it instead. */
export function watchConsole(speaker: Speaker): { expectQuiet(): void } {
  const heard: string[] = [];
  for (const kind of ['warn', 'error'] as const) {
    const say = speaker[kind].bind(speaker);
    speaker[kind] = (...words: unknown[]) => {
      heard.push(`console.${kind}: ${words.map(String).join(' ')}`);
      say(...words);
    };
  }
  return {
    expectQuiet() {
      const said = heard.splice(0);
      if (said.length > 0) throw new Error(`unexpected on the console:\n${said.join('\n')}`);
    },
  };
}
