/**
 * Invented readings of the shipped lesson on cobalt and nickel: computed by the model for a column with other numbers
 * (bead 217 µm, D scale 0.46, shrinkage 0.059), with the scatter of ruler, cylinder and watch, and rounded as they are read.
 */
export const EXAMPLE = `delivered_mL,from_mL,flow_mL_per_min,bed_cm,leading_cm,first_colour_mL,last_colour_mL,Co_mmol,NaOH_mL
3,,1.80,6.62,,,,,
12,,1.80,6.64,,,,,
32,,1.60,6.56,2.0,,,,
38,,1.57,,2.7,,,,
44,,1.60,,3.5,,,,
50,,1.58,6.59,4.0,,,,
,,,,,54.8,,,
56,53,,,,,,0.0436,3.73
60,56,,,,,,0.1333,0.32
,,,,,,59.9,,
65,,3.18,6.98,,,,,
`;

/** An invented flow test: 60 mm of liquid above the bed at first, nothing poured on. */
export const FLOW_TEST = `flow_test_mL,flow_test_min,flow_test_head_mm
2,1.9,60`;
