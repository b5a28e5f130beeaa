namespace KittingBee.Web.Uploads;

/// <summary>A package unpacks to more than anything that is taken here needs.</summary>
public sealed class TooMuchException() : Exception("The package unpacks to more than is taken.");

/// <summary>How many more bytes may be unpacked, over all parts of one package.</summary>
public sealed class Budget(long left)
{
    public void Take(int bytes)
    {
        left -= bytes;
        if (left < 0)
        {
            throw new TooMuchException();
        }
    }
}

/// <summary>Unpacks no more than the budget, whatever the package says about its sizes.</summary>
public sealed class BoundedStream(Stream inner, Budget budget) : Stream
{
    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    public override int Read(byte[] buffer, int offset, int count)
    {
        var read = inner.Read(buffer, offset, count);
        budget.Take(read);
        return read;
    }

    public override void Flush() => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
        }

        base.Dispose(disposing);
    }
}
