/** The words of the specimen in four languages; invented, for the eye and for the golden files. */
export interface SpecimenTexts {
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  readonly title: string;
  readonly byline: string;
  readonly lead: string;
  readonly cover: string;
  readonly sizes: string;
  readonly sizesCaption: string;
  readonly measures: readonly string[];
  readonly materials: string;
  readonly material: readonly string[];
  readonly gauge: string;
  readonly gaugeText: string;
  readonly caution: string;
  readonly note: string;
  readonly abbreviations: string;
  readonly terms: readonly (readonly [string, string])[];
  readonly brim: string;
  readonly brimText: string;
  readonly rows: readonly (readonly [string, string, string])[];
  readonly crown: string;
  readonly chart: string;
  readonly fine: string;
}

const en: SpecimenTexts = {
  language: 'en-US',
  direction: 'ltr',
  title: 'Skerry',
  byline: 'A cabled hat in five sizes, by Northfold',
  lead: 'A close-fitting hat for the low rocks where the tide turns: a folded brim, a cable that runs like a current up to the crown, and wedges that close without a pucker.',
  cover: 'Skerry in size M, worked in oatmeal; the picture is drawn by the press.',
  sizes: 'Sizes and finished measurements',
  sizesCaption: 'Finished measurements after blocking',
  measures: ['Size', 'Head', 'Brim around', 'Depth', 'Yarn'],
  material: [
    'Yarn: worsted weight, 100 % wool, 180 m per 100 g: 1 (1, 1, 2, 2) balls.',
    'Needles: 4 mm and 4.5 mm circular, 40 cm long, and double-pointed needles for the crown.',
    'Notions: cable needle, stitch marker, tapestry needle.',
  ],
  materials: 'Materials',
  gauge: 'Gauge',
  gaugeText:
    '20 sts and 28 rounds are 10 cm in stockinette on the larger needle, washed and dried flat. Measure in the middle of a swatch of at least 15 cm, and change the needle, not the count, until it agrees. A hat that is two stitches off in 10 cm will be five centimetres too wide.',
  caution:
    'For children under three leave out the pompom: it is a small part. Follow the rules of the place where the hat will be worn or sold.',
  note: 'Numbers are given for the smallest size, then for the larger ones in brackets. Where there is one number, it is for all sizes.',
  abbreviations: 'Abbreviations',
  terms: [
    ['k', 'knit'],
    ['p', 'purl'],
    ['k2tog', 'knit two stitches together; leans right'],
    [
      'ssk',
      'slip two stitches as if to knit, one at a time; knit them together through the back; leans left',
    ],
    ['pm', 'place a marker'],
    ['sm', 'slip the marker'],
    ['rnd', 'round'],
    ['st(s)', 'stitch(es)'],
    ['BOR', 'beginning of the round'],
    [
      '2/2 RC',
      'slip two stitches to the cable needle and hold it at the back; knit two; knit two from the cable needle',
    ],
    ['2/2 LC', 'the same with the cable needle at the front'],
  ],
  brim: 'Brim',
  brimText:
    'With the smaller needle cast on in a stretchy way and join to work in the round, taking care that the stitches do not twist. Place a marker for the beginning of the round.',
  rows: [
    [
      'Cast on',
      'Cast on 88 (96, 104, 112, 120) sts, pm for BOR and join.',
      '88 (96, 104, 112, 120) sts',
    ],
    ['Rnds 1–20', '*K2, p2; rep from * to end.', ''],
    [
      'Rnd 21',
      'K all sts, and increase 8 sts evenly: *k11 (12, 13, 14, 15), m1; rep from * to end.',
      '96 (104, 112, 120, 128) sts',
    ],
    [
      'Rnd 22',
      'Change to the larger needle. *P2, k4, p2, k0 (1, 2, 3, 4), work the next four stitches of the cable as the chart shows, k0 (1, 2, 3, 4), p2; rep from * to the marker, then slip it.',
      '',
    ],
    ['Rnds 23–26', 'Work each stitch as it appears.', ''],
    [
      'Rnd 27 and every following 6th rnd',
      '*P2, 2/2 RC, p2, k to 2 sts before the next purl stitch, p2; rep from * to end.',
      '',
    ],
  ],
  crown: 'Crown',
  chart: 'Cable, worked from the bottom up and from right to left.',
  fine: '© Northfold. For your own knitting; please do not pass the file on. Errata and help: the address on the shop page.',
};

const de: SpecimenTexts = {
  ...en,
  language: 'de',
  title: 'Skerry',
  byline: 'Zopfmütze in fünf Größen, von Northfold',
  lead: 'Eine eng anliegende Mütze für die flachen Felsen, an denen die Flut kehrtmacht: ein umgeschlagenes Bündchen, ein Zopf, der wie eine Strömung zur Mitte läuft, und Keile, die sich ohne Falten schließen.',
  cover: 'Skerry in Größe M; das Bild ist von der Presse gezeichnet.',
  sizes: 'Größen und Maße',
  sizesCaption: 'Fertige Maße nach dem Spannen',
  measures: ['Größe', 'Kopfumfang', 'Bündchenweite', 'Tiefe', 'Garn'],
  materials: 'Material',
  material: [
    'Garn: 100 % Schurwolle, Lauflänge 180 m je 100 g: 1 (1, 1, 2, 2) Knäuel.',
    'Nadeln: Rundstricknadeln 4 mm und 4,5 mm, 40 cm lang, und ein Nadelspiel für die Kronenabnahmen.',
    'Zubehör: Zopfnadel, Maschenmarkierer, Wollnadel.',
  ],
  gauge: 'Maschenprobe',
  gaugeText:
    '20 Maschen und 28 Runden sind 10 cm glatt rechts mit der dickeren Nadel, gewaschen und liegend getrocknet. In der Mitte eines mindestens 15 cm breiten Probestücks messen und die Nadelstärke wechseln, nicht die Maschenzahl, bis es übereinstimmt. Eine Mütze, deren Maschenprobe um zwei Maschen abweicht, wird fünf Zentimeter zu weit.',
  caution:
    'Für Kinder unter drei Jahren den Pompon weglassen: er ist ein verschluckbares Kleinteil. Es gelten die Vorschriften des Ortes, an dem die Mütze getragen oder verkauft wird.',
  note: 'Die Zahlen gelten für die kleinste Größe, in Klammern für die größeren. Wo nur eine Zahl steht, gilt sie für alle Größen.',
  abbreviations: 'Abkürzungen',
  terms: [
    ['re', 'rechte Masche'],
    ['li', 'linke Masche'],
    ['2 M re zus', 'zwei Maschen rechts zusammenstricken; neigt sich nach rechts'],
    [
      '2 M überz',
      'zwei Maschen einzeln wie zum Rechtsstricken abheben und durch das hintere Maschenglied zusammenstricken',
    ],
    ['MM', 'Maschenmarkierer'],
    ['Rd', 'Runde'],
    ['M', 'Masche(n)'],
    ['zun', 'zunehmen'],
  ],
  brim: 'Bündchen',
  brimText:
    'Mit der dünneren Nadel locker anschlagen und zur Runde schließen; dabei darauf achten, dass sich die Maschen nicht verdrehen. Den Rundenbeginn mit einem Maschenmarkierer kennzeichnen.',
  rows: [
    [
      'Anschlag',
      '88 (96, 104, 112, 120) M anschlagen, MM setzen und zur Rd schließen.',
      '88 (96, 104, 112, 120) M',
    ],
    ['Rd 1–20', '*2 M re, 2 M li; ab * bis Rundenende wdh.', ''],
    [
      'Rd 21',
      'Rechts stricken und gleichmäßig verteilt 8 M zunehmen: *11 (12, 13, 14, 15) M re, 1 M zun; ab * wdh.',
      '96 (104, 112, 120, 128) M',
    ],
    [
      'Rd 22',
      'Zur dickeren Nadel wechseln. *2 M li, 4 M re, 2 M li, 0 (1, 2, 3, 4) M re, die nächsten vier Zopfmaschen nach der Strickschrift arbeiten, 0 (1, 2, 3, 4) M re, 2 M li; ab * bis zum Maschenmarkierer wiederholen, dann diesen abheben.',
      '',
    ],
    ['Rd 23–26', 'Alle Maschen stricken, wie sie erscheinen.', ''],
    [
      'Rd 27 und in jeder folgenden 6. Rd',
      '*2 M li, Zopf nach rechts über 4 M, 2 M li; ab * wdh.',
      '',
    ],
  ],
  crown: 'Krone',
  chart: 'Zopf, von unten nach oben und von rechts nach links gelesen.',
  fine: '© Northfold. Für das eigene Stricken; bitte die Datei nicht weitergeben.',
};

const ja: SpecimenTexts = {
  ...en,
  language: 'ja',
  title: 'スケリー',
  byline: '五つのサイズの縄編み帽子　ノースフォールド',
  lead: '潮の変わる低い岩のための、ぴったりした帽子です。折り返したゴム編み、流れのように頂へのぼる縄編み、しわなく閉じる減らし目。',
  cover: 'スケリー、サイズＭ。この絵は印刷所が描いたものです。',
  sizes: 'サイズと仕上がり寸法',
  sizesCaption: '仕上げ後の寸法',
  measures: ['サイズ', '頭囲', '縁まわり', '深さ', '糸'],
  materials: '材料',
  material: [
    '糸：並太、ウール100 %、100 gあたり180 m、1 (1, 1, 2, 2) 玉。',
    '針：輪針4 mmと4.5 mm（40 cm）、頂のための4本針。',
    '用具：縄編み針、目数リング、とじ針。',
  ],
  gauge: 'ゲージ',
  gaugeText:
    '太いほうの針でメリヤス編み20目28段が10 cm四方（洗って平らに乾かした後）。少なくとも15 cm四方の編み地の中央で測り、目数ではなく針の太さを替えて合わせてください。10 cmで二目ちがうと、帽子は五センチも大きくなってしまいます。',
  caution:
    '三歳未満の子どもには、ぽんぽんを付けないでください。小さな部品は飲みこむおそれがあります。使う土地の規則にしたがってください。',
  note: '数字はいちばん小さいサイズ、かっこの中は大きいサイズの順です。数字が一つのときは、すべてのサイズに共通です。',
  abbreviations: '記号と略語',
  terms: [
    ['表', '表目'],
    ['裏', '裏目'],
    ['左上二目一度', '二目を一度に表目で編む。右に傾く'],
    ['右上二目一度', '一目ずつ表目を編むように移し、二目を一度に編む。左に傾く'],
    ['段', '輪編みの一周'],
    ['目', '編み目'],
  ],
  brim: '縁',
  brimText:
    '細いほうの針でゆるく作り目をし、目がねじれないように気をつけて輪にします。段の始めに目数リングを入れます。',
  rows: [
    [
      '作り目',
      '88 (96, 104, 112, 120) 目作り、目数リングを入れて輪にする。',
      '88 (96, 104, 112, 120) 目',
    ],
    ['1〜20段', '「表2、裏2」をくり返す。', ''],
    [
      '21段',
      '表目で編みながら平均に8目増やす。「表11 (12, 13, 14, 15)、ねじり増し目1」をくり返す。',
      '96 (104, 112, 120, 128) 目',
    ],
    [
      '22段',
      '太い針に替える。「裏2、表4、裏2、表0 (1, 2, 3, 4)、次の四目を図のとおりに編み、表0 (1, 2, 3, 4)、裏2」をリングまでくり返し、リングを移す。',
      '',
    ],
    ['23〜26段', '前段の目のとおりに編む。', ''],
    ['27段とその後の6段ごと', '「裏2、右上二目交差、裏2」をくり返す。', ''],
  ],
  crown: '頂',
  chart: '縄編み。下から上へ、右から左へ読みます。',
  fine: '© Northfold　ご自分で編むためだけにお使いください。',
};

const he: SpecimenTexts = {
  ...en,
  language: 'he',
  direction: 'rtl',
  title: 'סקרי',
  byline: 'כובע צמות בחמש מידות, מאת Northfold',
  lead: 'כובע צמוד לסלעים הנמוכים שבהם הגאות מסתובבת: שוליים מקופלים, צמה שעולה כמו זרם אל הכתר, וחלקים שנסגרים בלי קמט.',
  cover: 'סקרי במידה M; התמונה צוירה בידי בית הדפוס.',
  sizes: 'מידות',
  sizesCaption: 'מידות סופיות אחרי כביסה וייבוש',
  measures: ['מידה', 'היקף הראש', 'היקף השוליים', 'עומק', 'חוט'],
  materials: 'חומרים',
  material: [
    'חוט: צמר 100 %, 180 מ׳ ל־100 גרם: 1 (1, 1, 2, 2) כדורים.',
    'מסרגות: עגולות 4 mm ו־4.5 mm באורך 40 cm.',
    'אביזרים: מסרגת צמות, סמן עיניים, מחט צמר.',
  ],
  gauge: 'דוגמת מתח',
  gaugeText:
    '20 עיניים ו־28 סיבובים הם 10 ס״מ בסריגה חלקה במסרגה הגדולה, אחרי כביסה וייבוש בשכיבה. יש למדוד באמצע דוגמה של 15 ס״מ לפחות, ולהחליף מסרגה (ולא את מספר העיניים) עד שהמידה מתאימה. הפרש של שתי עיניים ב־10 ס״מ עושה כובע רחב בחמישה סנטימטרים.',
  caution:
    'לילדים מתחת לגיל שלוש אין להוסיף פונפון: זהו חלק קטן. יש לנהוג לפי הכללים במקום שבו הכובע יילבש או יימכר.',
  note: 'המספרים ניתנים למידה הקטנה ביותר, ובסוגריים למידות הגדולות יותר. מספר יחיד מתאים לכל המידות.',
  abbreviations: 'קיצורים',
  terms: [
    ['ח', 'עין ימין'],
    ['ש', 'עין שמאל'],
    ['k2tog', 'לסרוג שתי עיניים יחד; נוטה ימינה'],
    ['ssk', 'להחליק שתי עיניים אחת אחת ולסרוג אותן יחד מאחור'],
    ['סב׳', 'סיבוב'],
    ['ע׳', 'עיניים'],
  ],
  brim: 'שוליים',
  brimText:
    'להעלות עיניים במסרגה הקטנה באופן רפוי ולחבר לסריגה במעגל, בלי לסובב את העיניים. לשים סמן בתחילת הסיבוב.',
  rows: [
    [
      'העלאה',
      'להעלות 88 (96, 104, 112, 120) ע׳, לשים סמן ולחבר למעגל.',
      '88 (96, 104, 112, 120) ע׳',
    ],
    ['סב׳ 1–20', '*2 ח, 2 ש; לחזור מ־* עד הסוף.', ''],
    [
      'סב׳ 21',
      'לסרוג ימין ולהוסיף 8 ע׳ במרווחים שווים: *11 (12, 13, 14, 15) ח, m1; לחזור מ־* עד הסוף.',
      '96 (104, 112, 120, 128) ע׳',
    ],
    [
      'סב׳ 22',
      'לעבור למסרגה הגדולה. *2 ש, 4 ח, 2 ש, ואז ארבע העיניים של הצמה לפי התרשים (2/2 RC), 2 ש; לחזור מ־* עד הסמן ולהעביר אותו.',
      '',
    ],
    ['סב׳ 23–26', 'לסרוג כל עין כפי שהיא.', ''],
    ['סב׳ 27 וכל סיבוב שישי', '*2 ש, 2/2 RC, 2 ש; לחזור מ־* עד הסוף.', ''],
  ],
  crown: 'כתר',
  chart: 'צמה, נקראת מלמטה למעלה ומימין לשמאל.',
  fine: '© Northfold. לסריגה אישית בלבד.',
};

export const SPECIMEN_TEXTS = { en, de, ja, he } as const;
