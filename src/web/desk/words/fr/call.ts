import type { EN_CALL } from '../en/call.js';

export const FR_CALL: typeof EN_CALL = {
  title: 'Prendre un appel',
  which: 'Quel site ?',
  whichHint: 'Une partie de son nom, de son adresse, du client ou du téléphone.',
  notAllSites: 'Il y a plus de sites que ceux qui sont cherchés ici.',
  found: (count) =>
    count === 0 ? 'Aucun site ne l’a.' : count === 1 ? '1 trouvé' : `${count} trouvés`,
  tried: 'Qu’ont-ils essayé ?',
  touch: 'Touchez une salle : muette, puis entendue, puis faible, puis rien de dit.',
  touchKeys: 'Au clavier : flèches le long du câble, s muette, h entendue, w faible.',
  caller: 'Qui appelle ?',
  remark: 'Autre chose qui fut dit (facultatif)',
  send: 'Envoyer',
  sending: 'Envoi…',
  noTried: 'Dites ce qu’ils ont essayé.',
  noRooms: 'Touchez les salles qui étaient muettes.',
  noCaller: 'Dites qui appelle.',
  nothingDrawn: 'Rien n’est encore dessiné pour ce site, il n’y a donc pas de salle à toucher.',
  otherSite: 'Un autre site',
  taken: 'C’est noté',
  ticket: (number) => `Ticket n° ${number}`,
  joined: 'Il a rejoint ce qui était déjà ouvert.',
  opened: 'C’est un nouveau ticket.',
  askNow: 'Demandez-leur maintenant, tant qu’ils sont au téléphone',
  another: 'Prendre un autre appel',
  count: (silent, heard, weak) => `${silent} muettes, ${heard} entendues, ${weak} faibles`,
};
