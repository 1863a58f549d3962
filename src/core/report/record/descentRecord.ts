import type { Judgement } from '../../judge/index.ts';
import { placed, rounded, roundedMm } from './rounded.ts';

/** What a descent was read from; nothing where the finding tells of none. */
export const descentByRecord = ({ descent, descentBy: { size, step, losses, edge } }: Judgement) =>
  descent !== null && {
    descentBy: {
      size,
      step: step && {
        copyIs: step.copyIs,
        largerPercent: rounded(step.largerPercent, 3),
        sdPercent: rounded(step.sdPercent, 3),
        mostPercent: rounded(step.mostPercent, 3),
        material: step.material,
      },
      losses: losses && {
        ...{ count: losses.count, atEdge: losses.atEdge },
        ...{ areaMm2: rounded(losses.areaMm2, 3), byChance: losses.byChance },
        floors: losses.floors && {
          sigma: rounded(losses.floors.sigma, 3),
          alike: rounded(losses.floors.alike, 3),
          roughMm: roundedMm(losses.floors.roughMm),
        },
      },
      edge: edge && {
        lengthMm: roundedMm(edge.lengthMm),
        roughMm: roundedMm(edge.roughMm),
        apartMm: roundedMm(edge.apartMm),
        sigma: rounded(edge.sigma, 3),
        stretches: edge.stretches.map((way) => way.map(placed)),
      },
    },
  };
