import type { JobWords } from '../job-words.js';
import { FR_FORMATS as formats } from './formats.js';

const MARKS = { works: 'entendue', weak: 'faible', fails: 'sans son' };

export const FR_JOB: JobWords = {
  language: 'fr',
  title: (site, on) => `Fiche d’intervention : ${site}, ${formats.day(on)}`,
  page: (page, pages, madeAt) => `Établie le ${madeAt}. Page ${page} sur ${pages}.`,
  when: (from, until, technician) => {
    const time =
      from === null
        ? 'Dans la journée'
        : `À partir de ${from}${until === null ? '' : `, jusqu’à ${until}`}`;
    return `${time}, ${technician ?? 'personne n’est encore désigné'}`;
  },
  headings: {
    safety: 'Avant de commencer',
    said: 'Ce qui a été dit',
    plan: 'Que faire, pas à pas',
    checks: 'Ce qui renseigne le plus',
    parts: 'Pièces à emporter',
    lastVisits: 'Visites précédentes',
  },
  ticket: (number) => `Dossier ${number}`,
  furtherSaid: (count) =>
    `${formats.plural(count, { one: '# chose de plus a été dite, qui ne se trouve', other: '# choses de plus ont été dites, qui ne se trouvent' })} que dans le dossier.`,
  noPlace: 'Ce qui a été dit se contredit : redemandez qui a entendu quoi.',
  trunk: (trunk) => `Ligne ${trunk}, à partir de la centrale`,
  headEnd: 'centrale',
  goesOn: (node) => (node === null ? 'suite' : `suite à partir de ${node}`),
  notDrawn: (nodes) =>
    `${formats.plural(nodes, { one: '# salle ou jonction de plus n’est pas dessinée', other: '# salles et jonctions de plus ne sont pas dessinées' })} ici ; le dossier montre tout.`,
  node: (name, code, outcome, isLooked) => {
    const said = outcome === null ? '' : `, ${MARKS[outcome]}`;
    const named = name.includes(code) ? name : `${name} (${code})`;
    return `${named}${said}${isLooked ? ' : regardez d’abord avant ce point' : ''}`;
  },
  metres: (metres) => `${formats.figure(metres, 4)} m`,
  part: ({ id, neededChance, isCarried, isInVan }) => {
    const take =
      isInVan === null ? ', à emporter' : ', pas dans la camionnette : à charger avant de partir';
    return `${id.replaceAll('-', ' ')} : nécessaire avec ${formats.chance(neededChance)}${isInVan === true ? ', dans la camionnette' : isCarried ? take : ''}`;
  },
  secondTrip: (chance) => `Qu’une pièce manque malgré tout : ${formats.chance(chance)}.`,
  further: (numbers) => `Autres dossiers de cette visite : ${numbers.join(', ')}.`,
  none: 'Aucune.',
};
