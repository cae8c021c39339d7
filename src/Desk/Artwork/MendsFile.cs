using System.Text.Json.Nodes;

namespace Coldpeel.Desk.Artwork;

/// <summary>The list of mends as JSON.</summary>
internal static class MendsFile
{
    /// <summary>One object a mend; lengths in mm to a micrometre, areas in mm², percent of the toner before the mend.</summary>
    public static string Write(MendedArtwork mended) =>
        new JsonArray([
            .. mended.Steps.Select(step =>
            {
                var json = new JsonObject
                {
                    ["mend"] = step.Mend,
                    ["places"] = step.Places,
                    ["addedMm2"] = Math.Round(step.AddedMm2, 4),
                    ["removedMm2"] = Math.Round(step.RemovedMm2, 4),
                    ["addedPercent"] = Percent(step.AddedMm2, step.InkMm2),
                    ["removedPercent"] = Percent(step.RemovedMm2, step.InkMm2),
                };
                if (step.SmallestWidthMm is { } smallest)
                {
                    json["smallestWidthMm"] = smallest;
                }

                json["at"] = new JsonArray([
                    .. step.At.Select(b => new JsonObject
                    {
                        ["xMm"] = Math.Round(b.Left, 3),
                        ["yMm"] = Math.Round(b.Top, 3),
                        ["wMm"] = Math.Round(b.Width, 3),
                        ["hMm"] = Math.Round(b.Height, 3),
                    }),
                ]);
                json["say"] = step.Say.English;
                return json;
            }),
        ]).ToJsonString();

    private static double Percent(double part, double whole) => whole > 0 ? Math.Round(100 * part / whole, 3) : 0;
}
