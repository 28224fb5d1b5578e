import { assessCommand } from './assessCommand.ts';
import { compareCommand } from './compareCommand.ts';
import { exhibitCommand } from './exhibitCommand.ts';
import { planCommand } from './planCommand.ts';
import { runningCommand } from './runningCommand.ts';
import { serverSetupCommand } from './serverSetupCommand.ts';
import { trendCommand } from './trendCommand.ts';
import { worksheetCommand } from './worksheetCommand.ts';

const COMMANDS: Readonly<Record<string, (args: readonly string[]) => number | Promise<number>>> = {
  assess: assessCommand,
  compare: compareCommand,
  exhibit: exhibitCommand,
  plan: planCommand,
  running: runningCommand,
  'server-setup': serverSetupCommand,
  trend: trendCommand,
  worksheet: worksheetCommand,
};

const USAGE = `aftrun: is this bottom fair, hooked or rockered, by how much, and how sure is that.

  aftrun assess FILE.csv [--tolerance 1.5mm] [--over 1500mm] [--resolution 0.5mm]
                         [--repeatability 0.2mm] [--limit 1500mm]
                         [--edge-bound 0.3mm --edge-length 1800mm] [--json]
  aftrun plan [--stations "0, 75, 150, 300mm, …"] [--layings 1] [--hook 2.3mm]
                         [--feature 200mm] [--unit mm|in] [--json]
                         [--tolerance … and the other lengths, as for assess]
  aftrun worksheet FILE.csv --out sheet.html [--paper A4] [--way fill-only|grind-only|least-work]
                         [--per-panel one-plane|straight-buttocks]
                         [--grind-limit 0.5mm] [--fill-limit 6mm] [--forward 1200mm]
                         [--strips] [--material] [--tolerance … and the rest, as for assess]
  aftrun exhibit FILE.csv [OTHER.csv …] --out exhibit.html [--paper A4]
                         [--tolerance … and the rest, as for assess]
  aftrun compare A.csv B.csv … [--movement 1.5mm] [--least 0.4mm] [--within 1in]
                         [--accept support,edge] [--control S300]
                         [--repair "2026-03-14; P450, P700; filled"] [--json]
                         [--tolerance … and the other lengths, as for assess]
  aftrun trend A.csv B.csv C.csv … [--csv] [options as for compare]
  aftrun running FILE.json [--json]
  aftrun server-setup https://server.example:6984/yard --admin NAME
                         [--members "ann, tablet-2"] [--admins office]

Lengths take a unit: 1.5mm, 1/16in, "3/32 in". Exit status: 0 every line assessed,
1 the file could not be used, 2 wrong arguments.
`;

async function main([command, ...args]: readonly string[]): Promise<number> {
  if (command === undefined || command === 'help' || [command, ...args].includes('--help')) {
    (command === undefined ? process.stderr : process.stdout).write(USAGE);
    return command === undefined ? 2 : 0;
  }
  const run = Object.hasOwn(COMMANDS, command) ? COMMANDS[command] : undefined;
  if (!run) {
    process.stderr.write(`aftrun: no command '${command}'\n\n${USAGE}`);
    return 2;
  }
  return run(args);
}

// A reader that stops early (`| head`) is no fault.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
}

process.exitCode = await main(process.argv.slice(2));
