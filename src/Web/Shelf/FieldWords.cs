using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Press;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Shelf;

/// <summary>A field of the workshop file in the reader's words; a key that no form has stays as the file writes it.</summary>
internal static class FieldWords
{
    /// <summary>"Hands, per hour", "polyester-knit, press, set-point of the plate".</summary>
    public static string Of(BookDifference difference) =>
        difference.Path switch
        {
            ["prices", "blanks", var blank] => $"{ShelfWords.Blanks}, {blank}",
            ["prices", .. var rest] => Keys(rest),
            ["recipes", var material, "changes", var step, .. var rest] => $"{material}, {Step(step)}, {Keys(rest)}",
            ["processes", var process, "steps", var step, .. var rest] => $"{process}, {Step(step)}, {Keys(rest)}",
            ["recipes" or "materials" or "processes", var name, .. var rest] => $"{name}, {Keys(rest)}",
            ["washTrials", var trial, .. var rest] => $"{BookWords.AddTrial} ({trial}), {Keys(rest)}",
            ["presses", var press, .. var rest] => $"{ShelfWords.Presses}, {press}, {Keys(rest)}",
            ["sheets", var sheet, .. var rest] => $"{OrderWords.Sheets}, {sheet}, {Keys(rest)}",
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

    // The kind of a step may stand twice in a process: "press #2".
    private static string Step(string step)
    {
        var kind = step.Split(" #")[0];
        return StepWord.IsOne(kind) ? StepWords.Name(StepWord.Read(kind)) + step[kind.Length..] : step;
    }

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
            "name" => BookWords.PressName,
            "across" => PartWords.Across,
            "acrossMm" => PartWords.AcrossMm,
            "appUrl" => PartWords.AppUrl,
            "bleach" => PartWords.Bleach,
            "care" => PartWords.Care,
            "careTips" => PartWords.CareTips,
            "careTipsSource" => PartWords.CareTipsSource,
            "careSymbolsLicence" => PartWords.CareSymbolsLicence,
            "cautions" => PartWords.Cautions,
            "do" => PartWords.Do,
            "dotMm" => PartWords.DotMm,
            "downMm" => PartWords.DownMm,
            "dryClean" => PartWords.DryClean,
            "from" => PartWords.From,
            "glueSource" => PartWords.GlueSource,
            "heat" => PartWords.Heat,
            "id" => PartWords.Id,
            "inRings" => PartWords.InRings,
            "ironC" => PartWords.IronC,
            "keepOffThePlate" => PartWords.KeepOff,
            "limits" => PartWords.Limits,
            "lineMm" => PartWords.LineMm,
            "material" => PartWords.Material,
            "maxHeightMm" => PartWords.MaxHeightMm,
            "maxWidthMm" => PartWords.MaxWidthMm,
            "pictureDpi" => PartWords.PictureDpi,
            "placements" => PartWords.Placements,
            "printCare" => PartWords.PrintCare,
            "process" => PartWords.Process,
            "remnants" => PartWords.Remnants,
            "sketch" => PartWords.Sketch,
            "solidMm" => PartWords.SolidMm,
            "sources" => PartWords.Sources,
            "spares" => PartWords.Spares,
            "textMm" => PartWords.TextMm,
            "tintPercent" => PartWords.TintPercent,
            "tumbleC" => PartWords.TumbleC,
            "turns" => PartWords.Turns,
            "washC" => PartWords.WashC,
            "washGentle" => PartWords.WashGentle,
            _ => key,
        };
}
