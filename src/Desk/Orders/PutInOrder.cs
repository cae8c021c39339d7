using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Coldpeel.Desk.Rooms;
using Coldpeel.Storage.Rooms;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Orders;

/// <summary>How putting in an order ended.</summary>
public enum PutIn
{
    /// <summary>The order is made and kept.</summary>
    Kept,

    /// <summary>It was put in under this key before: the answer is the same as then.</summary>
    KeptBefore,

    /// <summary>The files are not those of an order.</summary>
    Refused,

    /// <summary>An order of that name is on its way already and must not change under people's hands.</summary>
    OnItsWay,

    /// <summary>The same key came with other files before.</summary>
    KeyOfAnother,

    /// <summary>The same key is being answered at this moment.</summary>
    StillMaking,

    /// <summary>Too many orders wait to be made.</summary>
    Busy,
}

/// <summary>How putting in an order ended, with the order as JSON or the fault.</summary>
/// <param name="How">How.</param>
/// <param name="OrderName">Name of the order when it is kept.</param>
/// <param name="OrderJson">The order as it is told to programs when it is kept.</param>
/// <param name="Fault">Why it is not kept.</param>
public sealed record PutInAnswer(PutIn How, string? OrderName, string? OrderJson, Fault? Fault);

/// <summary>Puts in an order for another program. Asked again under the same key it answers the same and makes nothing twice.</summary>
/// <remarks>A program killed between keeping the order and keeping the answer makes the same order once more when it is
/// asked again; it takes the place of itself.</remarks>
public sealed class PutInOrder(OpenedWorkshop workshop)
{
    /// <summary>Longest key in characters.</summary>
    public const int LongestKey = 200;

    private const int MostAtOnce = 8;
    private const int Created = 201;

    /// <summary>Puts it in.</summary>
    /// <param name="program">Who asks.</param>
    /// <param name="key">A key of the program's own, one for each order, printable ASCII.</param>
    /// <param name="files">The job file, its artwork, its rosters.</param>
    /// <param name="accept">Findings accepted by name.</param>
    /// <param name="stop">Cancels making it.</param>
    public PutInAnswer Run(
        Device program,
        string key,
        IReadOnlyList<HandedFile> files,
        IReadOnlyList<string> accept,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(program);
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(accept);
        var asked = Hash(files, accept);
        var hold = (program.Id, key);
        lock (workshop.PuttingIn)
        {
            if (workshop.PuttingIn.Contains(hold))
            {
                return No(
                    PutIn.StillMaking,
                    new(
                        $"The key “{key}”",
                        "is being answered at this moment.",
                        "Ask again under the same key in a while."
                    )
                );
            }

            if (Before(program, key, asked) is { } before)
            {
                return before;
            }

            if (workshop.PuttingIn.Count >= MostAtOnce)
            {
                return No(
                    PutIn.Busy,
                    new(
                        "The workshop",
                        $"is making {MostAtOnce} orders already.",
                        "Ask again under the same key in a minute."
                    )
                );
            }

            workshop.PuttingIn.Add(hold);
        }

        try
        {
            return Make(program, key, asked, files, accept, stop);
        }
        finally
        {
            lock (workshop.PuttingIn)
            {
                workshop.PuttingIn.Remove(hold);
            }
        }
    }

    private PutInAnswer? Before(Device program, string key, string asked) =>
        workshop.Store.Programs.Answer(program.Id, key) switch
        {
            null => null,
            { } kept when kept.Asked == asked => new(
                PutIn.KeptBefore,
                KeptJson.Read<ToldOrder>(kept.Body).Name,
                kept.Body,
                null
            ),
            _ => No(
                PutIn.KeyOfAnother,
                new($"The key “{key}”", "came with other files before.", "Give every order a key of its own.")
            ),
        };

    private PutInAnswer Make(
        Device program,
        string key,
        string asked,
        IReadOnlyList<HandedFile> files,
        IReadOnlyList<string> accept,
        CancellationToken stop
    )
    {
        var onItsWay = false;
        var made = new MakeFromFolder(workshop).Run(
            files,
            accept,
            MakeFromFolder.PatientSeconds,
            null,
            stop,
            program.Name,
            name =>
            {
                var against = Against(name);
                onItsWay = against is not null;
                return against;
            }
        );
        if (!made.Ok)
        {
            return No(onItsWay ? PutIn.OnItsWay : PutIn.Refused, made.Fault);
        }

        var name = made.Value.Job.Name;
        var json = KeptJson.Write(ToldOrder.Of(new OpenKeptJob(workshop).Run(name)!));
        workshop.Store.Programs.KeepAnswer(program.Id, key, new StoredAnswer(asked, Created, json), workshop.Now);
        return new(PutIn.Kept, name, json, null);
    }

    private Fault? Against(string name) =>
        workshop.Store.Order(name) is { Job.Stopped: false } kept
        && new StepOrder(workshop).SoFar(name, kept.Job.Stopped).Stage is not OrderStage.Made and var stage
            ? new(
                $"“{name}”",
                $"is {KeptJson.Write(stage).Trim('"')} already, so another program cannot change it.",
                "Ask the workshop to take that step back, or put it in under another name."
            )
            : null;

    private static PutInAnswer No(PutIn how, Fault fault) => new(how, null, null, fault);

    // Lengths stand before contents: no two different sets of files run together to the same bytes.
    private static string Hash(IReadOnlyList<HandedFile> files, IReadOnlyList<string> accept)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var file in files.OrderBy(f => f.Name, StringComparer.Ordinal))
        {
            Add(hash, Encoding.UTF8.GetBytes(file.Name));
            Add(hash, file.Content);
        }

        foreach (var name in accept.Order(StringComparer.Ordinal))
        {
            Add(hash, Encoding.UTF8.GetBytes(name));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static void Add(IncrementalHash hash, byte[] bytes)
    {
        Span<byte> length = stackalloc byte[sizeof(int)];
        BinaryPrimitives.WriteInt32LittleEndian(length, bytes.Length);
        hash.AppendData(length);
        hash.AppendData(bytes);
    }
}
