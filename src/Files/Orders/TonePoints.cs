using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Orders;

/// <summary>The points of a tone curve as job and workshop files write them: pairs of percent.</summary>
internal static class TonePoints
{
    /// <summary>The points as shares of solid; the schema has let them through.</summary>
    public static ImmutableArray<TonePoint> Read(JsonElement e, string key) =>
        e.All(key, p => new TonePoint(p[0].GetDouble() / 100, p[1].GetDouble() / 100));

    /// <summary>What is wrong with the points under a key, if it is there; null when nothing is.</summary>
    public static Fault? Fault(JsonText file, JsonElement e, string at, string key) =>
        CurveRule.Broken(Read(e, key)) is { } why
            ? file.Fault($"{at}/{key}", $"this is no tone curve: {why}", $"{CurveRule.Mend}.")
            : null;
}
