using System.Globalization;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Rooms;

namespace Coldpeel.Desk.Shelf;

/// <summary>Lays the answers to the questions of the first start over a workshop file.</summary>
internal static class AnsweredBook
{
    public static void Lay(JsonObject book, WorkshopAnswers answers)
    {
        var presses = Objects(book, "presses");
        book["presses"] = new JsonArray([.. answers.Presses.Select(p => Press(p, presses))]);
        var sheets = Objects(book, "sheets");
        book["sheets"] = new JsonArray([.. answers.Sheets.Select(s => Sheet(s, answers.Sheets[0], sheets))]);
        Set(book, "printerDpi", answers.PrinterDpi);
        var prices = (JsonObject)book["prices"]!;
        prices["currency"] = answers.Currency;
        if ((decimal)prices["taxPercent"]! != answers.TaxPercent)
        {
            prices["taxPercent"] = answers.TaxPercent;
        }
    }

    private static JsonObject Press(PressAnswer answer, JsonObject[] known)
    {
        var press =
            known.FirstOrDefault(p => (string?)p["id"] == answer.Id)?.DeepClone() as JsonObject
            ?? new JsonObject
            {
                ["id"] = answer.Id,
                ["plateWidthMm"] = answer.WidthMm,
                ["plateHeightMm"] = answer.HeightMm,
                ["setpointC"] = known[0]["setpointC"]!.DeepClone(),
            };
        Set(press, "plateWidthMm", answer.WidthMm);
        Set(press, "plateHeightMm", answer.HeightMm);
        return press;
    }

    // A sheet costs by its area, the first counts 1: so the search weighs film, not numbers of sheets.
    private static JsonNode Sheet(SheetAnswer answer, SheetAnswer first, JsonObject[] known) =>
        known
            .FirstOrDefault(s =>
                (double)s["widthMm"]! == answer.WidthMm
                && (double)s["heightMm"]! == answer.HeightMm
                && (double)s["marginMm"]! == answer.MarginMm
            )
            ?.DeepClone()
        ?? new JsonObject
        {
            ["widthMm"] = answer.WidthMm,
            ["heightMm"] = answer.HeightMm,
            ["marginMm"] = answer.MarginMm,
            ["cost"] = Math.Round(answer.WidthMm * answer.HeightMm / (first.WidthMm * first.HeightMm), 3),
        };

    private static void Set(JsonObject of, string key, int value)
    {
        // A number may be written 600.0; what is the same stays as it is written.
        if (double.Parse(of[key]!.ToJsonString(), CultureInfo.InvariantCulture) != value)
        {
            of[key] = value;
        }
    }

    private static JsonObject[] Objects(JsonObject book, string list) =>
        [.. ((JsonArray)book[list]!).OfType<JsonObject>()];
}
