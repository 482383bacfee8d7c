import type { EN_WORK_TIMES } from '../en/work-times.js';

export const FR_WORK_TIMES: typeof EN_WORK_TIMES = {
  title: 'Combien de temps prend le travail',
  hint: 'Les plans d’un jour et l’étape suivante sur place vont par ces minutes.',
  pace: (percent, visits) =>
    visits === 1
      ? `Appris de 1 visite : le travail prend ${percent} de l’habituel.`
      : `Appris de ${visits} visites : le travail prend ${percent} de l’habituel.`,
  paceHint:
    'Comptent les dépannages où quelque chose fut trouvé ou réparé. Peu d’entre eux changent peu, beaucoup changent tout.',
  nothingLearned:
    'Rien n’est encore appris : aucun dépannage où quelque chose fut trouvé ou réparé n’est terminé.',
  groups: {
    way: 'Y arriver',
    look: 'Regarder et mesurer',
    open: 'Ouvrir',
    mend: 'Réparer et prouver',
  },
  names: {
    walkHundredMetres: 'Marcher cent mètres',
    climbFloor: 'Monter un étage',
    enterHeadEnd: 'Entrer à la centrale',
    enterRoom: 'Entrer dans une salle',
    reachJunctionBox: 'Atteindre une boîte de jonction au plafond',
    waitForLesson: 'Attendre qu’une salle puisse être dérangée',
    setUpLadder: 'Installer une échelle',
    isolateAndProveDead: 'Couper, et prouver l’absence de tension',
    lookAtLamp: 'Regarder un voyant',
    listen: 'Écouter dans une salle',
    measure: 'Mesurer',
    disconnect: 'Débrancher une partie d’une ligne et la rebrancher',
    lookAtFuse: 'Regarder un fusible',
    openHeadEnd: 'Ouvrir la centrale',
    openTerminals: 'Ouvrir des bornes',
    openCableRun: 'Atteindre un chemin de câble',
    followTenMetres: 'Suivre dix mètres de câble',
    openStation: 'Ouvrir l’appareil d’une salle',
    mendHeadEnd: 'Réparer la centrale',
    mendFuse: 'Changer un fusible',
    mendTerminals: 'Refaire des bornes',
    mendCable: 'Réparer un câble',
    mendStation: 'Réparer ou changer l’appareil d’une salle',
    walkTestRoom: 'Essayer une salle quand tout est réparé',
    secondTrip: 'Aller chercher une pièce et revenir',
  },
  empty: 'Minutes. Un champ vide va par ce qui est appris, sinon par l’habituel.',
  goesBy: {
    own: (usual) => `comme vous le dites ; l’habituel est ${usual} min`,
    learned: (minutes, usual, visits) =>
      visits === 1
        ? `${minutes} min, appris de 1 visite ; l’habituel est ${usual} min`
        : `${minutes} min, appris de ${visits} visites ; l’habituel est ${usual} min`,
    usual: (usual) => `${usual} min, comme d’habitude`,
  },
  said: (minutes) => `${minutes} min, comme l’entreprise le dit`,
  notOwner: 'Un propriétaire les change.',
  number: 'doivent être des minutes, par exemple 2.5',
};
