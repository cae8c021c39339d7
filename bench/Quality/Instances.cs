namespace Coldpeel.Quality;

/// <summary>Which instances a family has, and the few of them that tell something in a second each.</summary>
internal static class Instances
{
    private static readonly string[] Quick =
    [
        "fu",
        "jakobs1",
        "shirts",
        "gardeyn9",
        "syn12_A4_g3_r4",
        "syn40_A4_g3_r4",
        "syn120_A4_g3_r4",
        "swim_A4_g3_r4",
        "JP1_TA001",
        "JP1_TF001",
        "JP2_TC001C6",
        "d006-2p1h-s1",
        "d020-3p2h-s1",
        "d060-2p1h-s1",
        "d150-3p2h-s1",
    ];

    public static string[] Of(string family, string folder, bool quick, string? only)
    {
        var names = only?.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return
        [
            .. Directory
                .EnumerateFiles(folder, "*.json")
                .Where(f => BelongsTo(family, Path.GetFileNameWithoutExtension(f)))
                .Where(f => names is null || names.Contains(Path.GetFileNameWithoutExtension(f)))
                .Where(f => !quick || Quick.Contains(Path.GetFileNameWithoutExtension(f)))
                .Order(StringComparer.Ordinal),
        ];
    }

    // Strips are the thirteen classics; swim with free turns stands with the newer set, which has several such.
    private static bool BelongsTo(string family, string name) =>
        family switch
        {
            "strip" => !name.StartsWith("gardeyn", StringComparison.Ordinal)
                && !name.EndsWith("_c", StringComparison.Ordinal),
            "gardeyn" => name.StartsWith("gardeyn", StringComparison.Ordinal)
                || name.EndsWith("_c", StringComparison.Ordinal),
            "replan" => name.StartsWith("d150", StringComparison.Ordinal),
            _ => true,
        };
}
