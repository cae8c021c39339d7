using Coldpeel.Desk.Rooms;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Orders;

/// <summary>Fills a workshop with invented orders: one that can be made, and one that must not be.</summary>
public sealed class FillDemo(OpenedWorkshop workshop)
{
    // A look at the app should not wait for the last square centimetre of film.
    private const double SearchSeconds = 16;

    private static readonly string[] Orders = ["regatta", "hi-vis"];

    /// <summary>Makes and keeps them.</summary>
    public Fault? Run(IProgress<string>? say, CancellationToken stop)
    {
        // Nobody owns the demo: it asks nothing.
        new KeepAnswers(workshop).PutOff("demo");
        foreach (var order in Orders)
        {
            say?.Report($"making the invented order {order}");
            var made = new MakeFromFolder(workshop).Run(Files(order), [], SearchSeconds, say, stop);
            if (!made.Ok)
            {
                return made.Fault;
            }
        }

        return null;
    }

    /// <summary>The files of an invented order, as a person would hand them in.</summary>
    public static IReadOnlyList<HandedFile> Files(string order)
    {
        var prefix = $"demo/{order}/";
        var program = typeof(FillDemo).Assembly;
        return
        [
            .. program
                .GetManifestResourceNames()
                .Where(n => n.StartsWith(prefix, StringComparison.Ordinal))
                .Select(n =>
                {
                    using var stream = program.GetManifestResourceStream(n)!;
                    using var bytes = new MemoryStream();
                    stream.CopyTo(bytes);
                    return new HandedFile(n[prefix.Length..], bytes.ToArray());
                }),
        ];
    }
}
