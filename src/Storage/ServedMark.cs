namespace Coldpeel.Storage;

/// <summary>Tells other programs that a workshop's folder is being served: a locked file, let go of by the system itself however the program ends.</summary>
public sealed class ServedMark : IDisposable
{
    private const string Name = "served.lock";

    private readonly FileStream? _held;

    private ServedMark(FileStream? held) => _held = held;

    /// <summary>Marks a folder as served. Several may serve it; where nothing can be written or locked there is no mark.</summary>
    public static ServedMark Of(string folder)
    {
        var path = Path.Combine(folder, Name);
        try
        {
            using (File.Open(path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.ReadWrite)) { }

            return new(File.Open(path, FileMode.Open, FileAccess.Read, FileShare.Read));
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            return new(null);
        }
    }

    /// <summary>Whether another program serves it now.</summary>
    public static bool IsOn(string folder)
    {
        try
        {
            using var alone = File.Open(
                Path.Combine(folder, Name),
                FileMode.Open,
                FileAccess.ReadWrite,
                FileShare.None
            );
            return false;
        }
        catch (FileNotFoundException)
        {
            return false;
        }
        catch (IOException)
        {
            return true;
        }
        catch (UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _held?.Dispose();
}
