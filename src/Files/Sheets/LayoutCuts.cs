using System.Text.Json;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>Writes what the cutter does with a sheet, under keys that other readers pass over.</summary>
internal static class LayoutCuts
{
    /// <summary>The offcut that the shelf can keep, and for straight trim the cuts in their order.</summary>
    public static void Write(Utf8JsonWriter json, LayoutPart part, int sheet, BoxMm? keep)
    {
        if (keep is { } kept)
        {
            json.WriteStartObject("x-remnant");
            Box(json, kept);
            json.WriteEndObject();
        }

        if (part.Problem.Trim != Trim.Straight)
        {
            return;
        }

        json.WriteStartArray("x-cuts");
        foreach (var cut in StraightCuts.Of(part.Problem, part.Plan, sheet, keep))
        {
            json.WriteStartObject();
            json.WriteNumber("cut", cut.Number);
            json.WriteNumber("part", cut.From.Number);
            json.WriteString("runs", cut.Upright ? "down" : "across");
            json.WriteNumber("atMm", Round(cut.At));
            json.WriteNumber("fromEdgeMm", Round(cut.FromEdge));
            json.WriteStartArray("gives");
            foreach (var given in (CutPart[])[cut.First, cut.Second])
            {
                json.WriteStartObject();
                json.WriteNumber("part", given.Number);
                Box(json, given.Box);
                json.WriteStartArray("holds");
                foreach (var held in given.Holds)
                {
                    json.WriteStringValue(part.Label(part.Plan.Placed[held]));
                }

                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Box(Utf8JsonWriter json, BoxMm box)
    {
        json.WriteNumber("xMm", Round(box.Left));
        json.WriteNumber("yMm", Round(box.Top));
        json.WriteNumber("widthMm", Round(box.Width));
        json.WriteNumber("heightMm", Round(box.Height));
    }

    private static double Round(double mm) => Math.Round(mm, 3);
}
