using Coldpeel.Storage.Orders;

namespace Coldpeel.Desk.Tests.Storage;

/// <summary>Invented jobs to keep.</summary>
internal static class Jobs
{
    public static StoredJob Of(string name, decimal total = 12.5m) =>
        new(
            name,
            "Alder Reach Regatta",
            new DateOnly(2027, 5, 21),
            DateTimeOffset.FromUnixTimeMilliseconds(1_795_600_000_123),
            false,
            2,
            new StoredFigures(3, 40, 0, 7200, 6900, total, "EUR")
        );

    public static Dictionary<string, byte[]> Files(params (string Name, string Text)[] files) =>
        files.ToDictionary(f => f.Name, f => System.Text.Encoding.UTF8.GetBytes(f.Text));
}
