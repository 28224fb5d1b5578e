import { readBoat } from '../running/file/readBoat.ts';
import { whatIf } from '../running/whatIf/whatIf.ts';
import { oneFile, parsedArguments } from './parsedArguments.ts';
import { readInput } from './readInput.ts';
import { runningJson } from './runningJson.ts';
import { runningText } from './runningText.ts';
import { complain, printable, reasonOf } from './surveyFile.ts';

/** Longest file that is read, bytes. */
const LARGEST = 4_000_000;
const OPTIONS = { json: { type: 'boolean' } } as const;
const USAGE = 'aftrun running FILE.json [--json]';

/** `aftrun running FILE.json`: weights, running trim against the porpoising limit, and what a fair bottom or weight forward
 *  would change. Exit status 0, 1 where the file could not be used, 2 for wrong arguments. */
export function runningCommand(args: readonly string[]): number {
  const parsed = parsedArguments(args, OPTIONS);
  const asked = parsed.ok ? oneFile(parsed.files, USAGE) : parsed;
  if (!parsed.ok || !asked.ok) {
    complain(`aftrun running: ${asked.ok ? USAGE : asked.message}`);
    return 2;
  }
  const { file } = asked;
  let json: unknown;
  try {
    json = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(readInput(file, LARGEST)));
  } catch (error) {
    complain(
      `${file}: ${error instanceof SyntaxError ? `no JSON: ${error.message}` : reasonOf(error)}`,
    );
    return 1;
  }
  const read = readBoat(json);
  if (!read.ok) {
    complain(
      `${file}: ${read.faults.length} fault${read.faults.length === 1 ? '' : 's'}; nothing was worked out.`,
      ...read.faults.map(
        ({ at, found, expected }) => `  ${at}: found ${found}, expected ${expected}`,
      ),
    );
    return 1;
  }
  const found = whatIf(read.boat, read.speeds, read.at);
  if (!found.ok) {
    complain(`${file}: ${found.reason}`);
    return 1;
  }
  process.stdout.write(
    parsed.values.json === true
      ? `${JSON.stringify(runningJson(read, found))}\n`
      : printable(runningText(read, found)),
  );
  return 0;
}
