import type { OfficeWords, PageWords, TicketStateName } from '../office-words.js';
import { FR_FORMATS as formats } from './formats.js';

const SOUND = { fails: 'muet', works: 'entendu', weak: 'à peine entendu' };

export const FR_PAGES: PageWords = {
  language: 'fr',
  ownName: 'Français',
  oneMoment: 'Un instant…',
  tryAgain: 'Réessayer',
  send: 'Envoyer',
  sending: 'Envoi…',
  functions: {
    announcement: { tried: 'Annonce parlée', ...SOUND },
    bell: { tried: 'Sonnerie', ...SOUND },
    music: { tried: 'Musique', ...SOUND },
    lamp: { tried: 'Voyant de l’appareil', fails: 'éteint', works: 'allumé', weak: 'éclaire peu' },
    'room-call': { tried: 'Appel à une seule salle', ...SOUND },
    talkback: { tried: 'La salle parle au bureau', ...SOUND },
  },
  unit: (code) => `Appareil ${code}`,
  line: (trunk) => `Ligne ${trunk}`,
  floor: (floor) => (/^-?\d+$/.test(floor) ? `étage ${floor}` : floor),
  instant: formats.instant,
  pen: {
    label: 'Ici, du doigt ou au stylet (facultatif)',
    box: (isDrawn) => (isDrawn ? 'Signé ici à la main' : 'Rien n’est encore dessiné'),
    again: 'La dessiner à nouveau',
  },
  movedMeanwhile: 'Son état a changé entre-temps, et ce n’est plus possible.',
  notReached:
    'Le service n’a pas été joint. Rien de ce que vous avez saisi n’est perdu : réessayez dans un instant.',
  notReady: 'Quelque chose a échoué au service. Rien de ce que vous avez saisi n’est perdu.',
  closedMeanwhile: 'Ceci a été fermé entre-temps. Rechargez la page pour voir où on en est.',
  wentWrong: 'Quelque chose a échoué au service.',
  nothingHere: 'Il n’y a rien ici',
  nothingHereWhy: 'L’adresse est peut-être mal écrite, ou ce dont elle parlait n’existe plus.',
  failedNow: 'Cela n’a pas marché à l’instant',
  maybeOld: (reason) => `Ceci n’est peut-être plus à jour : ${reason}`,
};

const STATES: Readonly<Record<TicketStateName, string>> = {
  reported: 'L’entreprise l’a reçu et décide de la suite.',
  'to-visit': 'Quelqu’un viendra.',
  'at-work': 'Quelqu’un y travaille.',
  bridged: 'Cela marche pour le moment ; quelqu’un reviendra réparer pour de bon.',
  mended: 'C’est réparé ; il reste à l’essayer dans chaque salle.',
  closed: 'C’est fermé.',
  merged: 'Il a été joint à un autre dossier.',
};

const fromOf = (next: { fromTime: string | null }) =>
  next.fromTime === null ? '' : ` à partir de ${next.fromTime}`;

export const FR_OFFICE: OfficeWords = {
  title: (site) => `Signaler des salles muettes : ${site}`,
  report: {
    heading: 'Signaler des salles muettes',
    whatTried: 'Qu’avez-vous essayé ?',
    whichRooms: 'Quelles salles ?',
    rooms: 'Salles',
    touch: ({ fails, works, weak }) =>
      `Touchez une salle une fois : ${fails}. Deux fois : ${works}. Trois fois : ${weak}. Encore une fois : rien de dit. Les salles que vous savez « ${works} » aident autant que celles « ${fails} ».`,
    notSaid: 'rien de dit',
    yourName: 'Votre nom',
    count: ({ fails, works, weak }, words) =>
      [
        `${words.fails} : ${formats.figure(fails, 9)}`,
        `${words.works} : ${formats.figure(works, 9)}`,
        ...(weak > 0 ? [`${words.weak} : ${formats.figure(weak, 9)}`] : []),
      ].join(' ; '),
    everywhere: 'Partout',
    all: (mark) => `tout : ${mark}`,
    clear: 'effacer',
    oddities: {
      legend: 'Autre chose d’étrange ?',
      humming: 'Cela ronfle',
      crackling: 'Cela crépite',
      'wrong-time': 'C’est venu à la mauvaise heure',
    },
    note: 'Autre chose (facultatif)',
    urgent: 'Cela ne peut pas attendre',
    whyUrgent: 'Pourquoi cela ne peut pas attendre',
    callBack: 'Un numéro pour vous rappeler (facultatif)',
    inWords: {
      label: 'Quelles salles, et qu’est-ce qui y est muet ?',
      hint: 'Personne n’a encore dessiné ce lieu : dites-le avec vos mots.',
    },
    missing: {
      something: 'Il manque quelque chose.',
      tried: 'Dites, s’il vous plaît, ce que vous avez essayé.',
      rooms: 'Touchez, s’il vous plaît, les salles qui étaient muettes.',
      name: 'Dites, s’il vous plaît, qui vous êtes.',
      whyUrgent: 'Dites, s’il vous plaît, pourquoi cela ne peut pas attendre.',
      inWords: 'Dites, s’il vous plaît, quelles salles et ce qui y est muet.',
    },
    thanks: (numbers) =>
      `Merci. ${formats.plural(numbers.length, { one: 'Votre dossier porte le numéro', other: 'Vos dossiers portent les numéros' })} ${formats.and(numbers.map(String))}.`,
    more: 'Signaler d’autres salles',
  },
  ring: (firm) => `Ou appelez ${firm} :`,
  nextVisit: (next) =>
    next === null
      ? 'Aucune visite n’est encore fixée. Dès que l’entreprise en aura fixé une, le jour sera ici.'
      : `Quelqu’un viendra le ${formats.day(next.on)}${fromOf(next)} (${next.kind === 'planned' ? 'visite prévue' : 'dépannage'}).`,
  atWork: 'Quelqu’un de l’entreprise travaille ici en ce moment.',
  mayChange:
    'Le jour peut changer si quelque chose de plus urgent arrive ailleurs. Ce qui vaut est écrit ici.',
  ticket: {
    heading: (number) => `Dossier ${number}`,
    since: (instant) => `Depuis le ${instant}.`,
    states: STATES,
    open: 'Ce que vous pouvez vérifier',
    ofTicket: (number) => `pour le dossier ${number}`,
    openHeading: 'Dossiers ouverts',
    openCount: (count) => `Dossiers ouverts : ${formats.figure(count, 9)}`,
    notWorking: (tried, rooms) => `${tried}, ne marche pas dans : ${rooms.join(', ')}`,
    saidToWork: (tried, rooms) =>
      `${tried}, remarche, dit-on, dans : ${rooms.join(', ')}. Le technicien l’essaiera sur place.`,
  },
  check: {
    heading: 'À regarder maintenant',
    why: 'Chacune de ces choses peut éviter une visite ou la raccourcir.',
    lookOnly:
      'Regardez et écoutez seulement. N’ouvrez rien, ne débranchez rien, ne montez sur rien, et ne dérangez ni cours ni travail pour cela. Ce qui n’est pas facile, laissez-le au technicien.',
    suggestion: (words, minutes) =>
      `${words.charAt(0).toLocaleUpperCase('fr')}${words.slice(1)}. Cela prend ${formats.plural(minutes, { one: 'environ une minute', other: 'environ # minutes' })}.`,
    wasItSo: 'Était-ce ainsi avant que vous commenciez ?',
    andNow: 'Et maintenant ?',
    answers: { yes: 'oui', no: 'non', unknown: 'je ne sais pas' },
    noted: 'Merci, c’est noté.',
  },
  sign: {
    heading: 'Travaux à signer',
    count: (count) => `À signer : ${formats.figure(count, 9)}`,
    visit: (day) => `Visite du ${formats.day(day)}`,
    nothingWritten: 'Le technicien n’a rien écrit sur les travaux.',
    remark: 'Remarque (facultative)',
    button: 'Signer de mon nom',
    signed: (day, name) => `Visite du ${formats.day(day)} : signé par ${name}. Merci.`,
  },
  emergency: {
    label: 'Appels d’urgence',
    heading: 'Ce système porte aussi les appels d’urgence.',
    text: 'Si des salles sont muettes, prévenez tout de suite la personne responsable de la sécurité, mettez en place le remplacement convenu et notez les heures.',
  },
  over: {
    replaced: 'Cette affiche a été remplacée',
    openLink: 'Ouvrez, s’il vous plaît, le lien de l’affiche',
    notNow: 'Cela n’a pas marché cette fois',
    scanAgain:
      'Scannez à nouveau le code de l’affiche, ou ouvrez son lien. La session se termine quand la page n’est pas utilisée pendant une heure.',
  },
};
