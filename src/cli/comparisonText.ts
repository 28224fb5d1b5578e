import {
  alikeEverywhereWords,
  changeWords,
  controlWords,
  relaxedWords,
  unlikeWords,
} from '../seasons/changeWords.ts';
import { panelChanges, panelChangeWords } from '../seasons/panelChange.ts';
import type { Comparison } from '../seasons/comparison.ts';
import { showLine, showTolerance } from '../survey/figures.ts';

/** A comparison for people: what is not alike first, then each line in words, then what stands in one survey only. */
export function comparisonText(all: Comparison): string {
  const { first, second, tolerance, least, lines, unmatched } = all;
  const unit = second.survey.workUnit;
  const { hull } = second.survey;
  const named = hull === undefined ? '' : `${hull}: `;
  const dates = [first, second].map(({ survey }) => survey.date ?? 'no date stated');
  const head = [
    `${named}${dates[0]} compared with ${dates[1]}`,
    `A change of ${showTolerance(tolerance, unit)} matters; one below ${showTolerance(least, unit)} is laid to the measuring. What follows a ± is what the figure may be out by (about 95 %).`,
  ];
  const top = [
    ...unlikeWords(all.unlike),
    controlWords(all),
    relaxedWords(all),
    alikeEverywhereWords(all),
    ...panelChanges(all).map((change) => panelChangeWords(change, all, unit)),
  ];
  const said = lines.map((line) => {
    const { word, where, findings, sight } = changeWords(line, all, unit);
    const name = line.second.line.name;
    return [`${word}: ${name} (${where}).`, ...findings, sight].filter(Boolean).join(' ');
  });
  const single = unmatched.map(
    ({ line, in: where }) =>
      `${line.name} (${showLine(line.side, line.offset, unit)}) stands in the ${where} survey only.`,
  );
  return [head.join('\n'), ...top.filter(Boolean), ...said, ...single].join('\n\n');
}
