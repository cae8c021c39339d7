using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using Coldpeel.Bench;
using Coldpeel.Desk;
using Microsoft.Data.Sqlite;

namespace Coldpeel.Speed;

/// <summary>The app with 100,000 orders: how soon the first page is there, how long every page takes with 20 people at once, how much memory it holds.</summary>
/// <remarks>Needs the program built: run <c>./coldpeel --help</c> once. The orders are invented and put into the database directly.</remarks>
internal static class ServeBench
{
    private const int Clients = 20;

    private static readonly string[] Pages =
    [
        "/",
        "/orders",
        "/orders?after=2027-02-10%20AR-0040000",
        "/orders?q=0077123",
        "/orders?q=Reach%2042",
        "/orders/AR-0050000",
        "/search?q=0012345",
        "/search?q=halloway%2042",
        "/artwork",
        "/artwork?q=crest-499",
        "/sheets",
        "/sheets?show=not-ready",
        "/sheets?show=printed",
        "/bench",
        "/shelf",
        "/shelf?q=film%20499",
        "/recipes",
        "/tickets/AR-0050000/1",
    ];

    public static int Run(Options options)
    {
        if (ServedProgram.Find(options) is not { } program)
        {
            return 2;
        }

        var orders = options.Whole("--orders", options.Quick ? 5_000 : 100_000);
        var each = options.Whole("--each", options.Quick ? 20 : 100);
        // A folder that is named is filled once and left: the same orders, asked again of another build.
        var kept = options.Text("--data");
        var folder = kept ?? Directory.CreateTempSubdirectory("coldpeel-serve-bench-").FullName;
        try
        {
            if (!File.Exists(Path.Combine(folder, "workshop.db")))
            {
                Fill(folder, orders);
            }

            var clock = Stopwatch.StartNew();
            using var app = ServedProgram.Start(program, folder, out var address);
            using (var first = new HttpClient())
            {
                first.GetStringAsync(new Uri(address)).GetAwaiter().GetResult();
            }

            var ready = clock.Elapsed;
            var before = app.TotalProcessorTime;
            var times = Ask(address, each);
            var cpu = app.TotalProcessorTime - before;
            app.Refresh();
            var peak = PeakMegabytes(app);
            app.Kill();
            app.WaitForExit();

            var table = new MarkdownTable(
                Report.Say($"{orders} orders, {Clients} at once, {each} rounds each"),
                "page",
                "median ms",
                "p95 ms",
                "most ms"
            );
            foreach (var page in Pages)
            {
                var sorted = times[page].Order().ToArray();
                table.Add(page, At(sorted, 0.5), At(sorted, 0.95), At(sorted, 1));
            }

            var whole = new MarkdownTable("The program", "what", "figure");
            whole.Add("start to first page", Report.Say($"{ready.TotalSeconds:0.00} s"));
            whole.Add("most memory held", peak);
            whole.Add(
                "processor time a page",
                Report.Say($"{cpu.TotalMilliseconds / (each * Clients * (double)Pages.Length):0.00} ms")
            );
            Report.Put([table, whole], options.Text("--out"));
            return 0;
        }
        finally
        {
            if (kept is null)
            {
                Directory.Delete(folder, recursive: true);
            }
        }
    }

    private static Dictionary<string, ConcurrentBag<double>> Ask(string address, int each)
    {
        var times = Pages.ToDictionary(p => p, _ => new ConcurrentBag<double>());
        Task.WaitAll([
            .. Enumerable
                .Range(0, Clients)
                .Select(client =>
                    Task.Run(async () =>
                    {
                        using var browser = new HttpClient { BaseAddress = new Uri(address) };
                        for (var i = 0; i < each * Pages.Length; i++)
                        {
                            var page = Pages[(i + client) % Pages.Length];
                            var clock = Stopwatch.StartNew();
                            using var answer = await browser.GetAsync(page);
                            await answer.Content.ReadAsByteArrayAsync();
                            answer.EnsureSuccessStatusCode();
                            times[page].Add(clock.Elapsed.TotalMilliseconds);
                        }
                    })
                ),
        ]);
        return times;
    }

    // The form is the program's own; only the rows are put in by one statement each, which takes seconds instead of an hour.
    private static void Fill(string folder, int orders)
    {
        OpenWorkshop.Run(folder, TimeProvider.System).Value!.Dispose();
        using var db = new SqliteConnection($"Data Source={Path.Combine(folder, "workshop.db")};Pooling=False");
        db.Open();
        var count = orders.ToString(CultureInfo.InvariantCulture);
        var finding =
            """[{"kind":"thin-stroke","severity":"warn","say":"A stroke is thinner than the glue can follow, in 3 places.","design":"crest"}]""";
        var ticket =
            """{"number":1,"job":"AR","customer":"c","due":"2027-05-21","title":"12 × polo","materialName":"cotton","fabricColour":"#202020","customersOwn":false,"steps":[],"places":[],"rows":[],"cautions":["Hot plate."]}""";
        Do(
            db,
            $"""
            WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < {count})
            INSERT INTO jobs (Name, Customer, Due, MadeAtMs, Stopped, Warnings, Sheets, Pieces, LeftOut, MakespanS, BoundS, Total, Currency, FindingsJson, Stage, Sought, Words, SheetsJson)
            SELECT printf('AR-%07d', i), 'Alder Reach ' || (i % 997), date('2027-01-01', '+' || (i % 900) || ' days'), 1795600000000 + i, i % 50 = 0, i % 3,
              3, 40, 0, 7200, 6900, '123.45', 'EUR', $finding, CASE WHEN i % 10 = 0 THEN '' WHEN i % 200 = 1 THEN 'Approved' ELSE 'HandedOver' END,
              lower(printf('AR-%07d', i) || char(10) || 'Alder Reach ' || (i % 997) || char(10) || 'wren halloway ' || (i % 300) || char(10) || 'crest' || char(10) || 'crest-' || (i % 5000) || '.svg'),
              'crest' || char(10) || 'crest-' || (i % 5000) || '.svg', $sheets FROM n
            """,
            ("$finding", finding),
            ("$sheets", """[{"paper":"A4","widthMm":210,"heightMm":297,"started":false,"count":3}]""")
        );
        // Each file in twenty orders, one of them in a tenth of all.
        Do(
            db,
            """
            WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 4999)
            INSERT INTO artworks (Id, Hash, Name, Bytes, LastMs, Sought)
            SELECT i + 1, printf('%064x', i), 'crest-' || i || '.svg', 12000, 1795600000000 + i, 'crest-' || i || '.svg' || char(10) || 'crest' FROM n
            """
        );
        Do(
            db,
            """
            INSERT INTO artwork_uses (JobId, ArtworkId, Number, Design, WidthMm, HeightMm, Found, Mends, Picture)
            SELECT Id, CASE WHEN Id % 10 = 0 THEN 5000 ELSE Id % 5000 + 1 END, 1, 'crest', 60, 40, 2, 0, 'art-001-small.png' FROM jobs
            """
        );
        Do(
            db,
            "INSERT INTO order_marks (Job, Step, AtMs, Who, Note) SELECT Name, 'Approve', MadeAtMs, 'demo', 'Wren Halloway, signed proof' FROM jobs WHERE Stage <> ''"
        );
        Do(db, "INSERT INTO tickets (JobId, Number, Json) SELECT Id, 1, $ticket FROM jobs", ("$ticket", ticket));
        Do(
            db,
            "INSERT INTO files (JobId, Name, Hash, Bytes) SELECT Id, 'sheets.pdf', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', 1000 FROM jobs"
        );
        Do(
            db,
            """
            WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 50000)
            INSERT INTO stock (Kind, Name, Place, Unit, Count, Least, Sought)
            SELECT 'Sheet', 'film ' || i, 'drawer ' || (i % 40), 'sheets', i % 100 * 1000, 0, 'film ' || i || ' drawer ' || (i % 40) FROM n
            """
        );
        Do(db, "ANALYZE");
    }

    private static void Do(SqliteConnection db, string words, params (string Name, string Value)[] values)
    {
        using var command = db.CreateCommand();
        command.CommandText = words;
        foreach (var (name, value) in values)
        {
            command.Parameters.AddWithValue(name, value);
        }

        command.ExecuteNonQuery();
    }

    private static string PeakMegabytes(Process app)
    {
        var status = $"/proc/{app.Id}/status";
        var line = File.Exists(status)
            ? File.ReadLines(status).FirstOrDefault(l => l.StartsWith("VmHWM", StringComparison.Ordinal))
            : null;
        var kilobytes = line is null
            ? app.PeakWorkingSet64 / 1024
            : long.Parse(string.Concat(line.Where(char.IsAsciiDigit)), CultureInfo.InvariantCulture);
        return Report.Say($"{kilobytes / 1024.0:0} MB");
    }

    private static string At(double[] sorted, double share) =>
        Report.Say($"{sorted[Math.Min(sorted.Length - 1, (int)Math.Ceiling(share * sorted.Length) - 1)]:0.0}");
}
