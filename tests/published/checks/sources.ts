/** Where figures of theirs stand: a publication, a general-purpose program, or only the set of references. */
export type Source = { title: string; kind: 'publication' | 'program' | 'reference set' };

const publication = (title: string): Source => ({ title, kind: 'publication' });
const program = (title: string): Source => ({ title, kind: 'program' });

export const SOURCES = {
  'IAPWS R7-97': publication(
    'IAPWS R7-97(2012), Industrial Formulation 1997 for the Thermodynamic Properties of Water and Steam',
  ),
  'IAPWS R6-95': publication(
    'IAPWS R6-95(2018), Formulation 1995 for the Thermodynamic Properties of Ordinary Water Substance',
  ),
  'IAPWS R12-08': publication('IAPWS R12-08, Formulation 2008 for the Viscosity of Ordinary Water Substance'),
  'IAPWS R15-11': publication(
    'IAPWS R15-11, Formulation 2011 for the Thermal Conductivity of Ordinary Water Substance',
  ),
  'IAPWS R13-08': publication('IAPWS R13-08, Formulation 2008 for the Thermodynamic Properties of Seawater'),
  'Sharqawy 2010': publication(
    'Sharqawy, Lienhard & Zubair, Desalination and Water Treatment 16 (2010) 354-380',
  ),
  'Melinder 2010': publication(
    'Melinder, Properties of Secondary Working Fluids for Indirect Systems, IIR, Paris 2010',
  ),
  'Watson & Nelson 1933': publication('Watson & Nelson, Ind. Eng. Chem. 25 (1933) 880-887'),
  'Riazi 2005': publication(
    'Riazi, Characterization and Properties of Petroleum Fractions, ASTM MNL50, 2005, eq. 7.43',
  ),
  'Cragoe 1929': publication('Cragoe, Thermal Properties of Petroleum Products, NBS Misc. Publ. 97, 1929'),
  'API MPMS 11.1': publication('API MPMS chapter 11.1 / ASTM D1250 (1980), volume correction'),
  'ASTM D341': publication('ASTM D341, viscosity-temperature equations (Walther)'),
  'Lemmon 2000': publication(
    'Lemmon, Jacobsen, Penoncello & Friend, J. Phys. Chem. Ref. Data 29 (2000) 331-385',
  ),
  'Lemmon & Jacobsen 2004': publication('Lemmon & Jacobsen, Int. J. Thermophys. 25 (2004) 21-69'),
  'Choi & Okos 1986': publication(
    'Choi & Okos, Food Engineering and Process Applications, vol. 1, Elsevier 1986, 93-101',
  ),
  Incropera: publication(
    'Incropera, DeWitt, Bergman & Lavine, Fundamentals of Heat and Mass Transfer, 6th ed., 2007',
  ),
  'Shah & Sekulic': publication(
    'Shah & Sekulic, Fundamentals of Heat Exchanger Design, 2003, tables 3.4, 3.6',
  ),
  'Mason 1955, Triboix 2009': publication(
    'Mason 1955 as in Shah & Sekulic, table 3.4; Triboix, Int. Comm. Heat Mass Transfer 36 (2009) 121-124',
  ),
  'Kandlikar & Shah 1989': publication('Kandlikar & Shah, J. Heat Transfer 111 (1989) 314-321'),
  'Bowman 1940': publication('Bowman, Mueller & Nagle, Trans. ASME 62 (1940) 283-294'),
  Holman: publication('Holman, Heat Transfer, 10th ed.'),
  Cengel: publication('Cengel, Heat and Mass Transfer: A Practical Approach, 3rd ed.'),
  Kern: publication('Kern, Process Heat Transfer, 1950'),
  Geankoplis: publication('Geankoplis, Transport Processes and Unit Operations, 3rd ed.'),
  Kreith: publication('Kreith, Manglik & Bohn, Principles of Heat Transfer, 7th ed.'),
  Lienhard: publication('Lienhard & Lienhard, A Heat Transfer Textbook'),
  Sukhatme: publication('Sukhatme, A Textbook on Heat Transfer'),
  Janna: publication('Janna, Engineering Heat Transfer'),
  'public page': publication("public forum page, process engineers' discussion of the fouling factor"),
  Sinnott: publication('Sinnott, Coulson & Richardson, vol. 6, 4th ed., 2005'),
  'Kakaç & Liu': publication('Kakaç & Liu, Heat Exchangers, 2nd ed., 2002'),
  'public worksheet': publication(
    'public worksheet of a plate exchanger design, scribd.com/document/359292197',
  ),
  McAdams: publication('McAdams, Heat Transmission, 3rd ed., 1954'),
  'Kern & Seaton 1959': publication('Kern & Seaton, British Chem. Eng. 4 (1959) 258-262'),
  'Epstein 1983': publication('Epstein, Heat Transfer Eng. 4 (1983) 43-56'),
  'Konak 1973': publication('Konak, AIChE J. 19 (1973) 1269 (attribution uncertain)'),
  'Ebert & Panchal 1995': publication(
    'Ebert & Panchal, Fouling Mitigation of Industrial Heat Exchange Equipment, 1995, 451-460',
  ),
  'Ma & Epstein 1981': publication('Ma & Epstein, Can. J. Chem. Eng. 59 (1981) 631-633'),
  'Casado 1990': publication('Casado, Hydrocarbon Processing 69 (1990) no. 8, 71-76'),
  HEI: publication('HEI Standards for Steam Surface Condensers, definition of the cleanliness factor'),
  'JCGM 100': publication('JCGM 100:2008, Guide to the Expression of Uncertainty in Measurement, eq. 10'),
  TEMA: publication('TEMA Standards, table RGP-T-2.4, as reproduced in public documents'),
  'Marriott 1971': publication('Marriott, Chem. Eng. 78 (1971) no. 8, 127-134'),
  'overall coefficients': publication(
    'Public tables of overall heat-transfer coefficients (Cengel, table 11-1)',
  ),
  'NIST SP 811': publication('NIST Special Publication 811 (2008), appendix B.8'),
  'NIST StRD': publication('NIST/ITL Statistical Reference Datasets'),
  'Sen 1968': publication('Sen, J. Am. Stat. Assoc. 63 (1968) 1379-1389'),
  'Gilbert 1987': publication(
    'Gilbert, Statistical Methods for Environmental Pollution Monitoring, 1987, table A18',
  ),
  'Brownlee 1965': publication(
    'Brownlee 1965, stack loss, as printed in the help pages of R MASS and statsmodels',
  ),
  'Venables & Ripley': publication(
    'Venables & Ripley, Modern Applied Statistics with S, 4th ed., section 6.5',
  ),
  'Brockwell & Davis 1991': publication('Brockwell & Davis 1991, Lake Huron levels, example of R arima'),
  'Pearson 2002': publication('Pearson, IEEE Trans. Control Syst. Technol. 10 (2002) 55-63'),
  'Burnham & Anderson': publication(
    'Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed., 2002',
  ),
  R: program('R 4.2.2 (base, MASS) and its data sets'),
  scipy: program('scipy 1.10.1'),
  statsmodels: program('statsmodels 0.13.5'),
  'reference set': {
    title: 'worked out for the set of references by formula and checked by brute force; in no publication',
    kind: 'reference set',
  },
} satisfies Record<string, Source>;

export type SourceName = keyof typeof SOURCES;
