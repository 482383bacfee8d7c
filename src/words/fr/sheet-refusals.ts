import type { SheetRefusalWords } from '../en/sheet-refusals.js';

export const FR_SHEET_REFUSALS: SheetRefusalWords = {
  sheetEmpty: 'la feuille est vide',
  sheetTooManyColumns: 'a {0} colonnes ; une feuille en a {1} au plus',
  sheetNoRows: 'aucune ligne ne suit',
  sheetTooManyRows: 'la feuille a plus de {0} rangées',
  sheetTooManyLines: 'la feuille a plus de {0} lignes',
  sheetTooManyNodes: '{0} points, c’est plus que les {1} d’un site',
  columnTwice: 'cette colonne est là deux fois',
  columnMissing: 'cette colonne manque',
  columnUnknown: 'cette colonne n’est pas d’une feuille de plan',
  columnMeant: 'cette colonne n’est pas d’une feuille de plan ; est-ce « {0} » ?',
  columnNameless: 'a une valeur dans une colonne sans nom',
  tooManyValues: 'a {0} valeurs pour {1} colonnes',
  decimalComma:
    'a {0} valeurs pour {1} colonnes, peut-être à cause d’une virgule décimale : écrivez "{2}" entre guillemets, ou {3}',
  quoteOpen: 'un guillemet s’ouvre ici et rien ne le ferme',
  quoteWithin: 'un guillemet finit au milieu d’une valeur ; doublez celui qui en fait partie',
  utf16: 'le fichier est en UTF-16 ; enregistrez-le comme CSV en UTF-8',
  nulByte:
    'il contient un NUL : ce n’est pas un texte en UTF-8 ; enregistrez-le comme CSV en UTF-8',
  notUtf8:
    'n’est pas en UTF-8 (Windows-1252, d’un tableur plus ancien ?) ; enregistrez-le comme CSV en UTF-8',
  noSuchSheet: 'n’est aucune de ses feuilles : {0}',
  noWorkbook: 'n’est pas un classeur (.xlsx) : enregistrez-le ainsi, ou comme CSV en UTF-8',
  oddWorkbook: 'n’est pas un classeur écrit par un tableur',
  workbookUnread:
    'le classeur ne peut pas être lu ; enregistrez sa feuille de plan comme CSV en UTF-8',
  workbookParts:
    'le classeur a plus de {0} parties ; enregistrez sa feuille de plan comme CSV en UTF-8',
  workbookUnpacked:
    'le classeur fait plus de {0} Mo décompressé ; enregistrez sa feuille de plan comme CSV en UTF-8',
  workbookLines:
    'le classeur a plus de {0} lignes ; enregistrez sa feuille de plan comme CSV en UTF-8',
  workbookColumn:
    'le classeur a une valeur dans la colonne {0} ; enregistrez sa feuille de plan comme CSV en UTF-8',
  workbookCosts:
    'lire le classeur prend trop de temps ou de mémoire ; enregistrez sa feuille de plan comme CSV en UTF-8',
  lengthAmbiguous: 'peut être des milliers ou des millièmes ; écrivez 1200 ou 1.2',
  dayAmbiguous:
    'peut être deux jours ; écrivez année-mois-jour, ou dites dans quelle langue est la feuille',
  noSuchDay: 'n’est pas un jour du calendrier comme cette feuille les écrit',
  orderOfAll: 'donnez l’ordre de toutes les rangées d’une ligne, ou d’aucune',
  orderNoNumber: 'n’est pas un nombre entier',
  orderTwice: 'la ligne {0} du fichier a le même ordre sur cette ligne',
  noSuchKind: 'doit être station ou junction-box (boîte de jonction)',
  yesOrNo: 'doit être yes (oui) ou no (non)',
  fedByTwo: '{0} vient de deux endroits : de {1} (ligne {2} du fichier) et ici de {3}',
  fedByTwoFirst: '{0} vient de deux endroits : de la tête (ligne {1} du fichier) et ici de {2}',
  fedByTwoSecond: '{0} vient de deux endroits : de {1} (ligne {2} du fichier) et ici de la tête',
  nodeOnLine: '{0} est déjà là (ligne {1} du fichier)',
  otherTrunk: '{0} est sur la ligne {1} ; un point vient de sa propre ligne',
  feederMeant: '{0} n’est pas sur cette ligne ; est-ce {1} ?',
  tooManyGroups: 'a plus de {0} noms',
  groupTooLong: 'a un nom de plus de {0} caractères',
  groupControls: 'a un nom avec des caractères qui ne se voient pas : écrivez-le à nouveau',
  groupComma: 'a un nom avec une virgule ou un point-virgule',
  groupTwice: 'a deux fois {0}',
  noFunction: 'contient ce qui n’est pas une fonction ; il y a {0}',
  functionTwice: 'a une fonction deux fois',
  titleLeftOut: 'un titre ; laissé de côté',
  totalLeftOut: 'un total ; laissé de côté',
  headerLeftOut: 'encore les noms des colonnes ; laissé de côté',
  columnLeftOut: 'cette colonne n’est pas d’une feuille de plan ; laissée de côté',
  columnLeftOutMeant:
    'cette colonne n’est pas d’une feuille de plan ; est-ce « {0} » ? Laissée de côté',
  fedNext: 'la rangée suivante vient de {0}',
  isBranch: '{0} est une branche qui vient de {1} : ses points sont sur la ligne {2}',
};
