using System.Globalization;
using System.Text;

namespace Coldpeel.Files.Artwork.Lettering;

/// <summary>How a character behaves in text of two directions (UAX #9, table 4); the names are the annex's.</summary>
internal enum BidiClass
{
    L,
    R,
    AL,
    EN,
    ES,
    ET,
    AN,
    CS,
    NSM,
    BN,
    B,
    S,
    WS,
    ON,
}

/// <summary>The class of a character, by general category and the few ranges where it is otherwise.</summary>
/// <remarks>Exact for Latin, Greek, Cyrillic, Hebrew and Arabic with their signs, and for the letters and numbers of every right-to-left script (checked against Unicode 14); the signs of other scripts count as neutral. Explicit embeddings and isolates count as unseen: rosters drop them.</remarks>
internal static class BidiClasses
{
    public static BidiClass Of(Rune rune)
    {
        var c = rune.Value;
        return c switch
        {
            '\n' or '\r' or 0x85 or 0x2029 or (>= 0x1C and <= 0x1E) => BidiClass.B,
            '\t' or 0x0B or 0x1F => BidiClass.S,
            '\f' or 0x2028 => BidiClass.WS,
            0x200E => BidiClass.L,
            0x200F or 0x07FE or 0x07FF => BidiClass.R,
            0x061C or 0x060B or 0x070F or 0xFDFC or 0x1ECB0 => BidiClass.AL,
            (>= 0x0600 and <= 0x0605) or 0x06DD or 0x0890 or 0x0891 or 0x08E2 => BidiClass.AN,
            (>= 0x0660 and <= 0x0669) or 0x066B or 0x066C => BidiClass.AN,
            (>= 0x10E60 and <= 0x10E7E) or (>= 0x10D30 and <= 0x10D39) => BidiClass.AN,
            _ when IsEuropeanNumber(c) => BidiClass.EN,
            '+' or '-' or 0x207A or 0x207B or 0x208A or 0x208B or 0x2212 => BidiClass.ES,
            0xFB29 or 0xFE62 or 0xFE63 or 0xFF0B or 0xFF0D => BidiClass.ES,
            '#' or '%' or 0xB0 or 0xB1 or 0x0609 or 0x060A or 0x066A => BidiClass.ET,
            (>= 0x2030 and <= 0x2034) or 0x212E or 0x2213 or 0xFE5F or 0xFE6A or 0xFF03 or 0xFF05 => BidiClass.ET,
            ',' or '.' or '/' or ':' or 0xA0 or 0x060C or 0x202F or 0x2044 => BidiClass.CS,
            0xFE50 or 0xFE52 or 0xFE55 or 0xFF0C or 0xFF0E or 0xFF0F or 0xFF1A => BidiClass.CS,
            // Letter-like signs that are neutral, and signs that count as letters.
            (>= 0x02B9 and <= 0x02BA) or (>= 0x02C2 and <= 0x02CF) or (>= 0x02D2 and <= 0x02DF) => BidiClass.ON,
            (>= 0x02E5 and <= 0x02ED) or (>= 0x02EF and <= 0x02FF) or 0x0374 => BidiClass.ON,
            0x0482 or (>= 0x055A and <= 0x055F) or 0x0589 => BidiClass.L,
            _ => ByCategory(rune),
        };
    }

    private static BidiClass ByCategory(Rune rune)
    {
        var c = rune.Value;
        switch (Rune.GetUnicodeCategory(rune))
        {
            case UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark:
                return BidiClass.NSM;
            case UnicodeCategory.Format or UnicodeCategory.Control:
                return BidiClass.BN;
            case UnicodeCategory.SpaceSeparator:
                return BidiClass.WS;
            case UnicodeCategory.CurrencySymbol:
                return BidiClass.ET;
            case UnicodeCategory.UppercaseLetter
            or UnicodeCategory.LowercaseLetter
            or UnicodeCategory.TitlecaseLetter
            or UnicodeCategory.ModifierLetter
            or UnicodeCategory.OtherLetter
            or UnicodeCategory.SpacingCombiningMark
            or UnicodeCategory.DecimalDigitNumber
            or UnicodeCategory.LetterNumber:
                return Strong(c);
            default:
                // Punctuation and signs are neutral, apart from those that belong to a right-to-left script.
                return Strong(c) is var side && side != BidiClass.L && !IsNeutralSign(c) ? side : BidiClass.ON;
        }
    }

    private static BidiClass Strong(int c) =>
        IsArabic(c) ? BidiClass.AL
        : c
            is (>= 0x0590 and <= 0x05FF)
                or (>= 0x07C0 and <= 0x085F)
                or (>= 0xFB1D and <= 0xFB4F)
                or (>= 0x10800 and <= 0x10FFF)
                or (>= 0x1E800 and <= 0x1EFFF)
            ? BidiClass.R
        : BidiClass.L;

    private static bool IsArabic(int c) =>
        c
            is (>= 0x0600 and <= 0x07BF)
                or (>= 0x0860 and <= 0x08FF)
                or (>= 0xFB50 and <= 0xFDFF)
                or (>= 0xFE70 and <= 0xFEFE)
                or (>= 0x10D00 and <= 0x10D3F)
                or (>= 0x10F30 and <= 0x10F6F)
                or (>= 0x1EC70 and <= 0x1ECBF)
                or (>= 0x1ED00 and <= 0x1ED4F)
                or (>= 0x1EE00 and <= 0x1EEFF);

    private static bool IsNeutralSign(int c) =>
        c
            is 0x0606
                or 0x0607
                or 0x060E
                or 0x060F
                or 0x06DE
                or 0x06E9
                or (>= 0x07F6 and <= 0x07F9)
                or 0xFD3E
                or 0xFD3F
                or (>= 0xFD40 and <= 0xFD4F)
                or 0xFDCF
                or (>= 0xFDFD and <= 0xFDFF)
                or 0x1091F
                or (>= 0x10B39 and <= 0x10B3F)
                or 0x1EEF0
                or 0x1EEF1;

    private static bool IsEuropeanNumber(int c) =>
        c
            is (>= '0' and <= '9')
                or 0xB2
                or 0xB3
                or 0xB9
                or (>= 0x06F0 and <= 0x06F9)
                or 0x2070
                or (>= 0x2074 and <= 0x2079)
                or (>= 0x2080 and <= 0x2089)
                or (>= 0x2488 and <= 0x249B)
                or (>= 0xFF10 and <= 0xFF19)
                or (>= 0x102E1 and <= 0x102FB)
                or (>= 0x1D7CE and <= 0x1D7FF)
                or (>= 0x1F100 and <= 0x1F10A)
                or (>= 0x1FBF0 and <= 0x1FBF9);
}
