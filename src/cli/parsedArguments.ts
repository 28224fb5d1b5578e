import { parseArgs, type ParseArgsConfig } from 'node:util';

export interface Refused {
  readonly ok: false;
  readonly message: string;
}

export function refused(message: string): Refused {
  return { ok: false, message };
}

/** A command's arguments by the options that it knows, and its files, where it takes any; what is wrong with them, in
 *  words. */
export function parsedArguments<const Options extends NonNullable<ParseArgsConfig['options']>>(
  args: readonly string[],
  options: Options,
  { takesFiles = true }: { readonly takesFiles?: boolean } = {},
) {
  try {
    const parsed = parseArgs({ args: [...args], allowPositionals: takesFiles, options });
    return { ok: true, values: parsed.values, files: parsed.positionals } as const;
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    // What Node adds to this one is of positional arguments, and leads astray.
    const unknown = /^Unknown option '([^']+)'/.exec(message);
    return refused(unknown ? `no option '${unknown[1]}'; aftrun --help lists them` : message);
  }
}

/** The one file of a command that takes one. `usage`: how it is asked for. */
export function oneFile(
  files: readonly string[],
  usage: string,
): { readonly ok: true; readonly file: string } | Refused {
  const [file, ...more] = files;
  if (file === undefined) return refused(`a file is expected: ${usage}`);
  if (more.length > 0) return refused(`one file is expected, found also ${more.join(', ')}`);
  return { ok: true, file };
}
