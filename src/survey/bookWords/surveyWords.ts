import { capital } from '../sentence.ts';
import { withUnit } from '../withUnit.ts';
import { sentenceOf, type Wording } from './wording.ts';

export const surveyWords: Wording<'survey'> = {
  group: 'survey',
  words: (body, { unit, names }) =>
    sentenceOf('The survey', [
      body.date ?? 'without a date',
      body.place,
      body.hull !== undefined && `hull “${body.hull}”`,
      body.by !== undefined && `measured by ${body.by}`,
      body.workUnit === 'in' ? 'in inches' : 'in mm',
      body.measured === 'log' ? 'from a log' : 'by hand',
      body.held === 'blocks' && 'edge on blocks',
      body.held === 'resting' && 'edge resting',
      body.edge !== undefined && `straightedge ${names.straightedge(body.edge)}`,
      body.gauge !== undefined && `gauge ${names.gauge(body.gauge)}`,
      body.stations !== undefined &&
        body.stations.length > 0 &&
        `stations ${body.stations.map((station) => withUnit(station, unit)).join(', ')}`,
      body.checks !== undefined && `checks the work of ${names.sheet(body.checks)}`,
    ]),
};

export const supportWords: Wording<'support'> = {
  group: 'survey',
  words: (body) =>
    sentenceOf(
      `Support ${body.nth}`,
      [
        body.what,
        body.at !== undefined && `since ${body.at}`,
        body.slings === false && 'not in slings',
        body.engine !== undefined && `engine ${body.engine}`,
        body.checkedBy !== undefined && `checked by ${body.checkedBy}`,
      ],
      body.notes,
    ),
};

export const conditionWords: Wording<'condition'> = {
  group: 'survey',
  words: (body, { unit }) => {
    const figures = [
      body.gap && body.over && `${withUnit(body.gap, unit)} over ${withUnit(body.over, unit)}`,
      body.length && withUnit(body.length, unit),
      body.days !== undefined && `${body.days} ${body.days === 1 ? 'day' : 'days'}`,
      body.celsius !== undefined && `${body.celsius} °C`,
      body.surface,
    ].filter((figure): figure is string => typeof figure === 'string' && figure !== body.said);
    const { said } = body;
    const both = said !== undefined && said !== '' && figures.length > 0;
    return sentenceOf(capital(body.about), [
      both ? `${said} (${figures.join(', ')})` : said,
      ...(both ? [] : figures),
      body.setBy !== undefined && `set by ${body.setBy}`,
    ]);
  },
};
