using System.Text.Json.Nodes;

namespace Coldpeel.Hosts.Tests.Cli;

/// <summary>A job of four pieces in a folder of its own, which a test may spoil.</summary>
internal sealed class SmallJob : IDisposable
{
    private const string Mark = """
        <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40" width="60mm" height="40mm"><rect x="10" y="10" width="40" height="20"/></svg>
        """;

    private readonly JsonObject _job = JsonNode
        .Parse(
            """
            {
              "job": "T-1", "customer": "Alder Reach Tea Tent", "due": "2027-05-21", "currency": "EUR",
              "designs": [
                { "id": "mark", "file": "mark.svg", "widthMm": 60, "prints": "dark" },
                { "id": "name", "lettering": { "text": "{name}", "font": "Inter SemiBold", "heightMm": 24, "maxWidthMm": 200 } }
              ],
              "items": [
                {
                  "id": "bag", "what": "tote", "material": "cotton-canvas", "colour": "#2b2d31", "quantity": 2, "suppliedBy": "workshop", "use": "everyday",
                  "placements": [{ "design": "mark", "at": "bag front" }]
                },
                {
                  "id": "shirt", "what": "shirt", "material": "cotton-jersey", "colour": "#123c34", "quantity": 2, "suppliedBy": "customer", "use": "everyday",
                  "roster": "crew.csv", "placements": [{ "design": "name", "at": "upper back" }]
                }
              ]
            }
            """
        )!
        .AsObject();

    public SmallJob()
    {
        Write("mark.svg", Mark);
        Write("crew.csv", "name\nÅsa\nBo\n");
        Write("job.json", _job.ToJsonString());
    }

    /// <summary>The job's folder is in it, and so is all that a run could leave behind.</summary>
    public string Home { get; } = Place.NewFolder();

    /// <summary>Writes a file of the job.</summary>
    public SmallJob Write(string name, string text)
    {
        Directory.CreateDirectory(Path.Combine(Home, "job"));
        File.WriteAllText(At("job", name), text);
        return this;
    }

    /// <summary>Writes a file of the job.</summary>
    public SmallJob Write(string name, byte[] bytes)
    {
        File.WriteAllBytes(At("job", name), bytes);
        return this;
    }

    /// <summary>Sets one value of the job: <c>items.0.quantity</c>; the value is JSON.</summary>
    public SmallJob Set(string path, string json)
    {
        var steps = path.Split('.');
        JsonNode here = _job;
        foreach (var step in steps[..^1])
        {
            here = int.TryParse(step, out var at) ? here[at]! : here[step]!;
        }

        here[steps[^1]] = JsonNode.Parse(json);
        return Write("job.json", _job.ToJsonString());
    }

    /// <summary>A path within <see cref="Home"/>.</summary>
    public string At(params string[] path) => Path.Combine([Home, .. path]);

    /// <summary>Runs <c>make</c> into <c>out</c>.</summary>
    public Task<Ran> Make(params string[] more) =>
        CommandLine.Run(Home, ["make", "job/job.json", "--out", "out", .. more]);

    /// <summary>Every file and folder outside the job's own folder.</summary>
    public string[] Left() =>
        [
            .. Directory
                .EnumerateFileSystemEntries(Home, "*", SearchOption.AllDirectories)
                .Select(p => Path.GetRelativePath(Home, p))
                .Where(p => p.Split(Path.DirectorySeparatorChar)[0] != "job")
                .Order(StringComparer.Ordinal),
        ];

    public void Dispose() => Directory.Delete(Home, recursive: true);
}
