using System.Globalization;
using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Press;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>A field of the workshop file in the reader's words; a key that no form has stays as the file writes it.</summary>
internal static class FieldWords
{
    /// <summary>"Hands, per hour", "polyester-knit, press, set-point of the plate".</summary>
    public static string Of(BookDifference difference) =>
        difference.Path switch
        {
            ["prices", "blanks", var blank] => $"{ShelfWords.Blanks}, {Say.Data(blank)}",
            ["prices", .. var rest] => Keys(rest),
            ["recipes", var material, "changes", var step, .. var rest] =>
                $"{Name(difference, "material", material)}, {Step(step)}, {Keys(rest)}",
            ["processes", var process, "limits", .. var rest] =>
                $"{Name(difference, "process", process)}, {BookWords.Finest}, {Keys(rest)}",
            ["processes", var process, "gain", var tone, .. var rest] =>
                $"{Name(difference, "process", process)}, {BookWords.Tints}, {Tone(tone)}, {Keys(rest)}",
            ["processes", var process, "steps", var step, .. var rest] =>
                $"{Name(difference, "process", process)}, {Step(step)}, {Keys(rest)}",
            ["processes", var process, .. var rest] => $"{Name(difference, "process", process)}, {Keys(rest)}",
            ["recipes" or "materials", var material, .. var rest] =>
                $"{Name(difference, "material", material)}, {Keys(rest)}",
            ["washTrials", var trial, .. var rest] =>
                $"{BookWords.WashTrial} ({Trial(difference, trial)}), {Keys(rest)}",
            ["presses", var press, .. var rest] => $"{ShelfWords.Presses}, {press}, {Keys(rest)}",
            ["placements", var place, .. var rest] => $"{Say.Data(place)}, {Keys(rest)}",
            ["printCare", .. var rest] => $"{BookWords.PrintCare}, {Keys(rest)}",
            ["remnants", var left, .. var rest] => $"{BookWords.Remnants}, {FieldValues.Sheet(left)}, {Keys(rest)}",
            ["spares", .. var rest] => $"{ShelfWords.Spares}, {Keys(rest)}",
            ["sources", var figure] => $"{BookWords.Source}, {Key(figure)}",
            ["sheets", var sheet, .. var rest] => $"{OrderWords.Sheets}, {FieldValues.Sheet(sheet)}, {Keys(rest)}",
            [.. var rest] => Keys(rest),
        };

    /// <summary>What a field holds, as people say it: "yes", "–" for nothing; words of the built-in example in the reader's language.</summary>
    public static string Value(string? value) =>
        value switch
        {
            null => "–",
            "true" => PartWords.Yes,
            "false" => PartWords.No,
            _ when StepWord.IsOne(value) => StepWords.Name(StepWord.Read(value)),
            _ => Say.Data(value),
        };

    /// <summary>"tote, price of one: 99": what was typed into a form and has no place any more.</summary>
    public static string Left(LeftOut left)
    {
        var steps = left.Field.Split('/');
        // Of a list of texts the last step is a number.
        var key = char.IsAsciiDigit(steps[^1][0]) ? steps[^2] : steps[^1];
        var row = left.Row.Length == 0 ? "" : $"{Step(left.Row)}, ";
        return $"{row}{Key(key)}: {(left.Typed.Length == 0 ? Value(null) : FieldValues.Chosen(key, left.Typed))}";
    }

    private static string Name(BookDifference difference, string kind, string id)
    {
        var bare = id.Split(" #")[0];
        return Say.Data(difference.Called(kind, bare)) + id[bare.Length..];
    }

    // A trial is called by its material's id and its day.
    private static string Trial(BookDifference difference, string trial) =>
        trial.Split(' ') is [var material, var on, .. var rest]
        && DateOnly.TryParseExact(on, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? string.Join(' ', [$"{Say.Data(difference.Called("material", material))}, {Say.Day(day)}", .. rest])
            : trial;

    // The kind of a step may stand twice in a process: "press #2".
    private static string Step(string step)
    {
        var kind = step.Split(" #")[0];
        return StepWord.IsOne(kind) ? StepWords.Name(StepWord.Read(kind)) + step[kind.Length..] : step;
    }

    private static string Tone(string tone) =>
        tone switch
        {
            "screen" => BookWords.ToneScreen,
            "spray" => BookWords.ToneSpray,
            "grey" => BookWords.ToneGrey,
            _ => tone,
        };

    private static string Keys(IReadOnlyCollection<string> keys) => string.Join(", ", keys.Select(Key));

    private static string Key(string key) =>
        key switch
        {
            "currency" => BookWords.Currency,
            "filmPerM2" => ShelfWords.FilmPrice,
            "adhesivePerM2" => ShelfWords.AdhesivePrice,
            "tonerPerGram" => ShelfWords.TonerPrice,
            "tonerGramPerM2" => ShelfWords.TonerSolid,
            "pressPerHour" => ShelfWords.PressPrice,
            "handPerHour" => ShelfWords.HandPrice,
            "setUpMinutes" => ShelfWords.SetUp,
            "spoilagePercent" => ShelfWords.Spoilage,
            "marginPercent" => ShelfWords.MarginPercent,
            "taxPercent" => ShelfWords.Tax,
            "source" => BookWords.Source,
            "celsius" => BookWords.SetPoint,
            "seconds" => BookWords.Seconds,
            "kPa" => BookWords.Pressure,
            "cover" => BookWords.Cover,
            "evidence" => BookWords.RestsOn,
            "say" => BookWords.HowDone,
            "loadSeconds" => BookWords.LoadSeconds,
            "unloadSeconds" => BookWords.UnloadSeconds,
            "glueSoftensC" => BookWords.GlueSoftens,
            "thicknessMm" => BookWords.Thickness,
            "washes" => BookWords.Washes,
            "pieces" => BookWords.PiecesWashed,
            "survived" => BookWords.PiecesGood,
            "on" => BookWords.EndedOn,
            "plateWidthMm" => BookWords.PlateWidth,
            "plateHeightMm" => BookWords.PlateHeight,
            "setpointC" => BookWords.StandsAtStart,
            "clearanceMm" => BookWords.Clearance,
            "printerDpi" => BookWords.Dpi,
            "gapMm" => BookWords.Gap,
            "trim" => BookWords.Trim,
            "widthMm" => BookWords.SheetWidth,
            "heightMm" => BookWords.SheetHeight,
            "marginMm" => BookWords.SheetMargin,
            "cost" => BookWords.SheetCost,
            "count" => BookWords.SheetCount,
            "hands" => ShelfWords.Hands,
            "rackPlaces" => ShelfWords.RackPlaces,
            "heatCPerMin" => ShelfWords.Heats,
            "coolCPerMin" => ShelfWords.Cools,
            "dayStart" => ShelfWords.DayStarts,
            "name" or "id" => BookWords.PressName,
            "price" => BookWords.BlankPrice,
            "place" => BookWords.StepPlace,
            "do" => BookWords.StepKind,
            "glueSource" => BookWords.GlueSource,
            "untried" => BookWords.Untried,
            "process" => BookWords.PressedBy,
            "heat" => BookWords.HeatOf,
            "edgeMmPerCm2" => BookWords.EdgeDensity,
            "cautions" => BookWords.ToMind,
            "care" => BookWords.BareCare,
            "washC" => BookWords.WashAtMost,
            "washGentle" => BookWords.WashHow,
            "bleach" => BookWords.Bleaching,
            "tumbleC" => BookWords.TumbleAtMost,
            "ironC" => BookWords.IronAtMost,
            "dryClean" => BookWords.DryCleaning,
            "lineMm" => BookWords.LeastStroke,
            "dotMm" => BookWords.LeastDot,
            "textMm" => BookWords.LeastCapital,
            "solidMm" => BookWords.LargestSolid,
            "tintPercent" => BookWords.LightestTint,
            "pictureDpi" => BookWords.LeastPixels,
            "points" => BookWords.TintPoints,
            "n" => BookWords.TintFactor,
            "maxWidthMm" => $"{BookWords.LargestDesign}, {BookWords.SheetWidth}",
            "maxHeightMm" => $"{BookWords.LargestDesign}, {BookWords.SheetHeight}",
            "from" => BookWords.MeasuredFrom,
            "downMm" => BookWords.DownToTop,
            "across" => BookWords.AcrossWords,
            "acrossMm" => BookWords.AcrossFigure,
            "sketch" => BookWords.Sketch,
            "keepOffThePlate" => BookWords.KeepOff,
            "turns" => BookWords.Turns,
            "inRings" => BookWords.InRings,
            "probability" => BookWords.HowSure,
            "rejectRate" => BookWords.RejectRate,
            "rejects" => BookWords.Rejects,
            "of" => BookWords.RejectsOf,
            "always" => BookWords.SparesAlways,
            "contacts" => BookWords.Contacts,
            "upperWm2K" => BookWords.ContactUpper,
            "itemWm2K" => BookWords.ContactItem,
            "padWm2K" => BookWords.ContactPad,
            "careTips" => BookWords.CareTips,
            "careTipsSource" => BookWords.CareTipsSource,
            "careSymbolsLicence" => BookWords.Licence,
            "fabricShowsWhiteDeltaE" => BookWords.Contrast,
            "appUrl" => BookWords.AppUrl,
            "material" => PartWords.Material,
            _ => key,
        };
}
