using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Press;
using Coldpeel.Web.Words;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>What a field of the workshop file may be chosen from, in the reader's words.</summary>
internal static class Choices
{
    /// <summary>What figures rest on.</summary>
    public static (string, string)[] Rests =>
        [
            ("", BookWords.NotSaid),
            .. Enum.GetValues<Evidence>().Select(e => (EvidenceWords.Of(e), StepWords.RestsOn(e))),
        ];

    /// <summary>Kinds of steps; without one the step is taken out.</summary>
    public static (string, string)[] Steps =>
        [("", BookWords.NoStep), .. Enum.GetValues<StepKind>().Select(k => (StepWord.Of(k), StepWords.Name(k)))];

    /// <summary>How pieces are cut.</summary>
    public static (string, string)[] Trims =>
        [("scissors", BookWords.TrimScissors), ("straight", BookWords.TrimStraight)];

    /// <summary>Hottest wash, °C.</summary>
    public static (string, string)[] Washes => [("0", BookWords.NotWashed), .. Celsius(30, 40, 50, 60, 70, 95)];

    /// <summary>How gently it is washed.</summary>
    public static (string, string)[] Gentle =>
        [("0", BookWords.GentleNormal), ("1", BookWords.GentleMild), ("2", BookWords.GentleVery)];

    /// <summary>Bleaching.</summary>
    public static (string, string)[] Bleach =>
        [("0", BookWords.BleachNone), ("1", BookWords.BleachOxygen), ("2", BookWords.BleachAny)];

    /// <summary>Hottest tumble drying, °C.</summary>
    public static (string, string)[] Tumble => [("0", BookWords.NotTumbled), .. Celsius(60, 80)];

    /// <summary>Hottest iron, °C.</summary>
    public static (string, string)[] Iron => [("0", BookWords.NotIroned), .. Celsius(110, 150, 200)];

    /// <summary>Yes or no, where one of them must be said.</summary>
    public static (string, string)[] YesNo => [("true", BookWords.Yes), ("false", BookWords.No)];

    /// <summary>Yes or no, where nothing said means one of them.</summary>
    /// <param name="unsaid">What nothing said means.</param>
    /// <param name="stands">What stands.</param>
    public static (string, string)[] YesNoOr(bool unsaid, string stands)
    {
        var usual = unsaid ? "true" : "false";
        return
        [
            (stands == usual ? usual : "", unsaid ? BookWords.Yes : BookWords.No),
            (unsaid ? "false" : "true", unsaid ? BookWords.No : BookWords.Yes),
        ];
    }

    /// <summary>The turns of pieces on the sheet.</summary>
    /// <param name="stands">What stands: it can stay, whatever it is.</param>
    public static (string, string)[] Turns(string stands)
    {
        (string Value, string Words)[] usual =
        [
            ("0", BookWords.TurnNone),
            ("0 180", BookWords.TurnHalf),
            ("0 90 180 270", BookWords.TurnQuarter),
            ("free", BookWords.TurnFree),
        ];
        return usual.Any(u => u.Value == stands) || stands.Length == 0
            ? usual
            : [.. usual, (stands, Say.With(BookWords.TurnOwn, stands))];
    }

    /// <summary>The outline that the ticket draws.</summary>
    public static (string, string)[] Sketches =>
        [
            ("shirt-front", BookWords.SketchShirtFront),
            ("shirt-back", BookWords.SketchShirtBack),
            ("gilet-front", BookWords.SketchGiletFront),
            ("gilet-back", BookWords.SketchGiletBack),
            ("sleeve", BookWords.SketchSleeve),
            ("bag", BookWords.SketchBag),
            ("flat", BookWords.SketchFlat),
            ("tag", BookWords.SketchTag),
        ];

    /// <summary>What a material must be minded for.</summary>
    public static (string Key, string Words)[] Cautions =>
        [
            ("coated", BookWords.IsCoated),
            ("nylon", BookWords.IsNylon),
            ("elastane", BookWords.IsElastane),
            ("leather", BookWords.IsLeather),
            ("dye-migration", BookWords.IsDyed),
            ("unknown", BookWords.IsUnknown),
        ];

    /// <summary>The materials of the heat model.</summary>
    public static (string, string)[] Heats(string field) =>
        [
            ("", BookWords.NotInModel),
            .. Coldpeel
                .Desk.Shelf.Book.FormFields.Limits(field)!
                .Choices.Select(c => (c, Say.Data(c.Replace('-', ' ')))),
        ];

    private static IEnumerable<(string, string)> Celsius(params int[] degrees) =>
        degrees.Select(c => (c.ToString(System.Globalization.CultureInfo.InvariantCulture), $"{c} °C"));
}
