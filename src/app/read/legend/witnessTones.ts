/** One tone a witness: the qualitative scheme Dark2 of ColorBrewer (C. Brewer and M. Harrower, Apache 2.0). */
export const witnessTones = ['#1b9e77', '#d95f02', '#7570b3', '#e7298a', '#66a61e', '#e6ab02'] as const;
