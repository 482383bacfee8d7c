import type { EN_CLOSED_DAYS } from '../en/closed-days.js';

export const FR_CLOSED_DAYS: typeof EN_CLOSED_DAYS = {
  title: 'Jours fermés',
  hint: 'Vacances scolaires, examens, jours de fermeture : les contrats nomment les calendriers dont les jours ne comptent pas, ou pendant lesquels aucune visite n’est faite.',
  none: 'Il n’y a pas encore de calendrier.',
  closes: (times, days) =>
    `${times === 1 ? '1 période' : `${times} périodes`}, ${days === 1 ? '1 jour' : `${days} jours`}`,
  closesNothing: 'Il ne ferme aucun jour.',
  leftOut: (count) =>
    count === 1
      ? 'Un événement à heure fixe, ou annulé, ne ferme rien.'
      : `${count} événements à heure fixe, ou annulés, ne ferment rien.`,
  first: 'Premier jour',
  last: 'Dernier jour',
  what: 'Ce que c’est',
  make: 'Ajouter un calendrier',
  name: 'Comment il s’appelle, par exemple « Vacances scolaires, Larkfield »',
  byHand: 'Ajouter des jours à la main',
  addDays: 'Ajouter ces jours',
  noFirst: 'Indiquez le premier jour.',
  lastBefore: 'Le dernier jour est avant le premier.',
  takeOut: 'Retirer',
  fromText: 'Les prendre d’un texte iCalendar',
  fromTextHint:
    'Ses jours remplacent ceux d’en dessous ; rien n’est gardé avant que vous le gardiez.',
  file: 'Un fichier (.ics)',
  text: 'Ou collez le texte',
  noText: 'Choisissez un fichier, ou collez le texte.',
  see: 'Voir ce qu’il ferme',
  reading: 'Lecture…',
  read: 'Le texte est lu.',
  line: 'Ligne',
  reason: 'Ce qui ne va pas',
  wrong: (count) =>
    count === 1 ? 'Il y a une erreur dans le texte.' : `Il y a ${count} erreurs dans le texte.`,
  willClose: 'Ce qu’il ferme',
  keep: 'Le garder',
  kept: (name) => `${name} est gardé.`,
  change: 'Changer',
  drop: 'Oublier ce que j’ai saisi',
  changed:
    'Quelqu’un d’autre l’a changé entre-temps : vos changements sont ici et ne sont pas gardés. Gardez-le encore pour mettre les vôtres.',
  remove: 'Supprimer…',
  removeNow: 'Le supprimer',
  removed: (name) => `${name} est supprimé.`,
};
