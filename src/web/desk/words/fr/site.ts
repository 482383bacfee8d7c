import type { EN_FIRM, EN_ROLES, EN_SITE } from '../en/site.js';

export const FR_SITE: typeof EN_SITE = {
  title: 'Les sites',
  search: 'Quel site ?',
  searchHint:
    'Une partie de son nom, de son adresse, du client ou du téléphone ; tous sont plus bas.',
  none: 'Il n’y a pas encore de site.',
  add: 'Ajouter un site',
  name: 'Nom',
  client: 'Le client',
  newClient: 'Un client qui n’est pas dans la liste',
  zone: 'Fuseau de ses heures, par exemple Europe/Lisbon',
  addButton: 'L’ajouter',
  nothingDrawn:
    'Rien n’est encore dessiné. Sa feuille se charge plus bas : une ligne par salle, dans l’ordre du câble.',
  drawn: 'Comment il est construit',
  version: (version, by, reason) =>
    version === 0 ? '' : `Version ${version} de ${by ?? ''} : ${reason ?? ''}`,
  sheet: 'Sa feuille',
  sheetHint:
    'Un texte (CSV) ou un classeur (.xlsx). Il faut les colonnes trunk et node ; rien n’est enregistré sans vérification.',
  file: 'Le fichier',
  check: 'Le vérifier',
  checking: 'Vérification…',
  sheetKept: (name) => `Choisi : ${name}`,
  noFile: 'Choisissez le fichier de la feuille.',
  wrong: (count) =>
    count === 1
      ? 'Une chose ne va pas ; rien n’a été enregistré.'
      : `${count} choses ne vont pas ; rien n’a été enregistré.`,
  line: 'Ligne',
  column: 'Colonne',
  value: 'Il y est écrit',
  reason: 'Ce qui ne va pas',
  fits: (changes) =>
    changes === 0
      ? 'Cela va, et ne change rien.'
      : changes === 1
        ? 'Cela va. Une chose changerait.'
        : `Cela va. ${changes} choses changeraient.`,
  why: 'Pourquoi cela change',
  save: 'L’enregistrer comme nouveau relevé',
  saved: 'C’est enregistré.',
  notes: 'Pas repris tel quel',
  tickets: 'Tickets ouverts',
  noTickets: 'Aucun ticket n’est ouvert.',
  passes: 'Affiche pour le secrétariat',
  passesHint:
    'Son code ouvre la page de ce site, sans compte. Une nouvelle affiche laisse les anciennes valables jusqu’à leur fin.',
  makePoster: 'Faire une affiche',
  endPass: 'Mettre fin à cette affiche',
  made: (day) => `Affiche du ${day}`,
  ended: 'terminée',
  download: 'Télécharger la feuille',
  emergency: 'Ce système porte aussi des appels d’urgence.',
  poster: 'L’affiche',
  posterOnce: 'Le code n’est montré que cette fois : imprimez-le maintenant.',
  posterMake: 'La faire',
  firmName: 'Le nom de l’entreprise, comme il est sur l’affiche',
  phone: 'Le numéro de téléphone à appeler',
  print: 'Imprimer',
  orRing: 'Ou appelez :',
  back: 'Revenir au site',
  notMeasured: 'pas mesuré',
};

export const FR_FIRM: typeof EN_FIRM = {
  title: 'L’entreprise',
  known: 'Comment les clients la connaissent',
  firmName: 'Le nom de l’entreprise, sur les affiches et pour les secrétariats',
  firmPhone: 'Le numéro de téléphone que les secrétariats appellent',
  firmSave: 'L’enregistrer',
  firmSaved: 'C’est enregistré.',
  people: 'Qui peut se connecter',
  name: 'Nom',
  email: 'Adresse électronique',
  role: 'Rôle',
  invite: 'Inviter quelqu’un',
  inviteButton: 'Envoyer l’invitation',
  invited: 'L’invitation est en route.',
  lastIn: 'Dernière fois ici',
  never: 'jamais encore',
  secondStep: 'Seconde étape',
  yes: 'oui',
  no: 'non',
  endAccount: 'Mettre fin',
  ended: 'terminé',
  outbox: 'Courriers',
  outboxHint:
    'Ce qui n’a pas de serveur de courrier attend ici ; un lien d’ici sert comme s’il avait été envoyé.',
  noMails: 'Aucun courrier.',
  mailSent: (when) => `envoyé le ${when}`,
  mailWaits: (when) => `du ${when}, attend`,
  mailRefused: (when) => `du ${when}, refusé par le serveur de courrier`,
  mailGivenUp: (when) => `du ${when}, refusé par le serveur de courrier ; on n’essaie plus`,
  textGone: 'Son texte n’est pas gardé une fois envoyé.',
  notices: 'Qui est averti de quoi',
  audit: 'Qui a fait quoi',
  auditHint: 'Les cinquante derniers ; tout est dans le fichier.',
  auditFile: 'Télécharger en CSV',
  notOwner: 'Seul un propriétaire voit ceci.',
  refused: 'refusé',
};

export const FR_ROLES: typeof EN_ROLES = {
  owner: 'propriétaire',
  dispatcher: 'coordination',
  'contract-manager': 'contrats',
  technician: 'technicien',
  client: 'un client',
};
